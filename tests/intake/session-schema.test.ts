/** The schema for editors accepts what the reader accepts and refuses what it refuses for shape. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { parseSession } from '../../src/intake/index.ts';
import { sessionSchema } from '../../src/intake/session-schema.ts';
import { catalogue, TODAY } from './catalogue.ts';

/** Made inside the tests, so that a run of mutants can tell which test reaches what. */
const schemaOfVisits = () => sessionSchema(catalogue.tests);
const text = (path: string): string => readFileSync(new URL(path, import.meta.url), 'utf8');

/** Codes that a schema of keys and kinds sees as well. */
const OF_SHAPE = [
  'unknown_key',
  'missing_key',
  'not_yes_no',
  'not_a_choice',
  'bad_text',
  'bad_date',
  'bad_pressure',
  'unit_in_number',
  'not_a_mapping',
  'wrong_format',
];

describe('the schema for editors', () => {
  test.each(['steady-66', 'copd-74', 'chair-86'])('accepts examples/%s.yaml', (name) => {
    expect(schemaOfVisits().safeParse(parse(text(`../../examples/${name}.yaml`))).error?.issues ?? []).toEqual([]);
  });

  const bad = readdirSync(new URL('../fixtures/bad/', import.meta.url));
  const isOfShape = (name: string): boolean => {
    const { problems } = parseSession(text(`../fixtures/bad/${name}`), { file: name, catalogue, today: TODAY });
    return problems.some(({ code }) => OF_SHAPE.includes(code)) && !problems.some(({ code }) => code === 'duplicate_key');
  };
  test('refuses every file of tests/fixtures/bad whose shape is wrong', () => {
    const schema = schemaOfVisits();
    const wrong = bad.filter(isOfShape);
    expect(wrong.length).toBeGreaterThan(5);
    expect(wrong.filter((name) => schema.safeParse(parse(text(`../fixtures/bad/${name}`))).success)).toEqual([]);
  });

  test('becomes a JSON Schema of draft 7 with titles', () => {
    const json = z.toJSONSchema(schemaOfVisits(), { target: 'draft-7', io: 'input' });
    expect(JSON.stringify(json)).toContain('Timed up and go (s)');
    expect(json.required).toEqual(['format', 'assessed', 'client']);
  });
});
