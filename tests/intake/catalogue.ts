/** The project's own limits, read from norms/, and a fixed today. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { FieldsFile, TestsFile } from '../../src/evidence/schema/catalogue.ts';
import type { Catalogue } from '../../src/intake/index.ts';

const read = (file: string): unknown => parse(readFileSync(new URL(`../../norms/${file}`, import.meta.url), 'utf8'));

export const catalogue: Catalogue = {
  tests: TestsFile.parse(read('tests.yaml')).tests,
  fields: FieldsFile.parse(read('fields.yaml')).fields,
};
export const TODAY = '2026-06-01';
