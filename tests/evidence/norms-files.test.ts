/** Nothing that is made from `norms/` is stale, and an editor that follows the schemas accepts every file. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { editorLine, jsonSchemaOf, kindOfPath, schemaFile, withEditorLine } from '../../src/evidence/json-schemas.ts';
import { KINDS } from '../../src/evidence/parse.ts';
import { readNormsFolder } from '../../src/evidence/read-folder.ts';
import { clinicFiles } from '../support/clinic.ts';
import { normsFolder, testEvidence } from '../support/evidence.ts';
import { staleNormsFiles, withBlock } from '../support/norms-files.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const files = readNormsFolder(normsFolder);

test('schemas, editor lines and the tables of norms/README.md are as made from norms/ (else run: node .config/norms-files.mjs)', () => {
  expect([...staleNormsFiles(root, testEvidence()).keys()]).toEqual([]);
});

test('a block without its markers is an error, not a silent loss', () => {
  expect(() => withBlock('no markers', 'counts', 'x')).toThrow('norms/README.md');
  expect(withBlock('a <!-- begin: counts -->\nold\n<!-- end --> b', 'counts', 'new')).toBe(
    'a <!-- begin: counts -->\nnew\n<!-- end --> b',
  );
});

describe('the schema that the first line of a file names', () => {
  const ajv = new Ajv({ strict: false, allErrors: true });
  const validators = new Map(KINDS.map((kind) => [kind.name, ajv.compile(JSON.parse(jsonSchemaOf(kind)) as object)]));

  test.each(files.map((file) => [file.path, file.text] as const))('%s', (path, text) => {
    expect(text.split('\n')[0]).toBe(editorLine(path));
    const name = kindOfPath(path)?.name ?? '';
    const named = join(normsFolder, path, '..', (text.split('\n')[0] ?? '').replace(/^.*\$schema=/, ''));
    expect(readFileSync(named, 'utf8')).toBe(readFileSync(join(normsFolder, schemaFile(name)), 'utf8'));
    const validate = validators.get(name);
    expect(validate?.(parse(text)), JSON.stringify(validate?.errors?.slice(0, 2))).toBe(true);
  });

  test("accepts a clinic's files and refuses a misspelt key", () => {
    for (const { path, text } of clinicFiles()) {
      const validate = validators.get(kindOfPath(path)?.name ?? '');
      expect(validate?.(parse(text)), path).toBe(true);
      expect(validate?.({ ...(parse(text) as object), soruce: 'x' }), path).toBe(false);
    }
  });
});

test('the editor line is put on top once, whatever stood there', () => {
  const once = withEditorLine('sources.yaml', '# what it is\nsources: {}\n');
  expect(once).toBe('# yaml-language-server: $schema=./schema/sources.schema.json\n# what it is\nsources: {}\n');
  expect(withEditorLine('sources.yaml', once)).toBe(once);
  expect(withEditorLine('notes.txt', 'as it is')).toBe('as it is');
});
