/** The JSON Schema as an editor applies it: it accepts every example and refuses what the zod schema refuses for shape. */
import { readdirSync, readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { sessionJsonSchema, sessionSchema } from '../../src/intake/session-schema.ts';
import { testEvidence } from '../support/evidence.ts';
import { exampleFiles, footing } from '../support/run.ts';

const { tests } = testEvidence();
const schema = sessionJsonSchema(tests) as Record<string, unknown>;
const ajv = new Ajv({ strict: false, allErrors: true });
addFormats.default(ajv);
const accepts = ajv.compile(schema);

/** Dates in the files are plain words to YAML 1.2, as they are to the reader. */
const tree = (text: string): unknown => parse(text, { schema: 'core', logLevel: 'error' });

describe('the JSON Schema of a visit', () => {
  it('is of draft 7 and named', () => {
    expect(schema.$schema).toContain('draft-07');
    expect(schema.title).toBe('A visit, as footing reads it');
  });

  it('is what "footing schema" prints', async () => {
    const { stdout, code } = await footing(['schema']);
    expect(code).toBe(0);
    expect(JSON.parse(stdout)).toEqual(schema);
  });

  it('has a title and a description for every key of every group and every test', () => {
    const groups = schema.properties as Record<
      string,
      { anyOf?: { properties?: Record<string, object> }[]; properties?: Record<string, object> }
    >;
    for (const group of ['client', 'history', 'health', 'vitals', 'redflags', 'medicines', 'since_last', 'tests']) {
      const properties =
        groups[group]?.properties ?? groups[group]?.anyOf?.find((each) => each.properties !== undefined)?.properties;
      expect(Object.keys(properties ?? {}).length, group).toBeGreaterThan(0);
      for (const [key, value] of Object.entries(properties ?? {})) {
        const text = JSON.stringify(value);
        const meant = /"\$ref":"#\/definitions\/(\w+)"/.exec(text)?.[1];
        const all = text + JSON.stringify((schema.definitions as Record<string, object>)[meant ?? ''] ?? '');
        expect(all, `${group}.${key}`).toMatch(/"title":/);
        expect(all, `${group}.${key}`).toMatch(/"description":/);
      }
    }
  });

  const visits = Object.entries(exampleFiles()).filter(
    ([name]) => /\.yaml$/.test(name) && parse(exampleFiles()[name] ?? '')?.format === 1,
  );
  it.each(visits.filter(([name]) => !name.includes('mistakes')))('accepts %s', (_name, text) => {
    expect(accepts(tree(text)), JSON.stringify(accepts.errors?.slice(0, 3))).toBe(true);
  });

  const folder = new URL('../fixtures/bad/', import.meta.url);
  const zod = sessionSchema(tests);
  const refused = readdirSync(folder)
    .map((name) => [name, readFileSync(new URL(name, folder), 'utf8')] as const)
    .filter(([, text]) => {
      try {
        return !zod.safeParse(tree(text)).success;
      } catch {
        return false;
      }
    });
  it.each(refused)('refuses tests/fixtures/bad/%s, as zod does', (_name, text) => {
    expect(accepts(tree(text))).toBe(false);
  });
});
