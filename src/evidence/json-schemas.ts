/** JSON Schema of every kind of norms file, for editors that complete keys and underline faults while a table is typed. */
import { z } from 'zod';
import { KINDS, type Kind } from './parse.ts';

export const kindOfPath = (path: string): Kind | undefined => KINDS.find(({ pattern }) => pattern.test(path));

/** `table` -> `table.schema.json`, in the folder `schema/` beside the norms files. */
export const schemaFile = (kind: string): string => `schema/${kind}.schema.json`;

/**
 * Draft 7, because the language servers of editors read no later one. Of the rules between values of one file (bands,
 * percentiles) a schema knows nothing: `footing norms check` has the last word.
 */
export function jsonSchemaOf({ name, schema }: Kind): string {
  const body = z.toJSONSchema(schema, { target: 'draft-7', io: 'input' });
  return `${JSON.stringify({ ...body, title: `footing norms: ${name}` }, null, 2)}\n`;
}

/** The comment that tells an editor which schema a file has; `path` is relative to the norms folder. null for other files. */
export function editorLine(path: string): string | null {
  const kind = kindOfPath(path);
  if (kind === undefined) return null;
  const up = '../'.repeat(path.split('/').length - 1);
  return `# yaml-language-server: $schema=${up === '' ? './' : up}${schemaFile(kind.name)}`;
}

const EDITOR_LINE = /^# yaml-language-server: .*\n/;

/** The text with its editor line on top, once. */
export function withEditorLine(path: string, text: string): string {
  const line = editorLine(path);
  return line === null ? text : `${line}\n${text.replace(EDITOR_LINE, '')}`;
}
