/**
 * The generated part of `norms/`: the schemas, the editor line on top of every file, and the tables in its README. A test
 * compares them with the folder; `node .config/norms-files.mjs` writes what is stale.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { type CollectionEntry, collectionOf, ENTRY_KINDS, KIND_WORDS } from '../../src/evidence/collection.ts';
import { type EvidenceData, indexEvidence } from '../../src/evidence/data.ts';
import { jsonSchemaOf, schemaFile, withEditorLine } from '../../src/evidence/json-schemas.ts';
import { KINDS } from '../../src/evidence/parse.ts';
import { readNormsFolder } from '../../src/evidence/read-folder.ts';
import { STATUSES } from '../../src/evidence/schema/words.ts';

const row = (cells: readonly (string | number)[]): string => `| ${cells.join(' | ')} |`;
const markdownTable = (headers: readonly string[], rows: readonly (readonly (string | number)[])[]): string =>
  [row(headers), row(headers.map((_, index) => (index === 0 ? '---' : '---:'))), ...rows.map(row)].join('\n');
const textTable = (headers: readonly string[], rows: readonly (readonly string[])[]): string =>
  [
    row(headers),
    row(headers.map(() => '---')),
    ...rows.map((cells) => row(cells.map((cell) => cell.replaceAll('|', '\\|')))),
  ].join('\n');

function countsByStatus(entries: readonly CollectionEntry[]): string {
  const statuses = STATUSES.filter((status) => entries.some((entry) => entry.status === status));
  const line = (name: string, of: readonly CollectionEntry[]): (string | number)[] => [
    name,
    ...statuses.map((status) => of.filter((entry) => entry.status === status).length),
    of.length,
  ];
  return markdownTable(
    ['kind', ...statuses, 'all'],
    [
      ...ENTRY_KINDS.map((kind) =>
        line(
          KIND_WORDS[kind],
          entries.filter((entry) => entry.kind === kind),
        ),
      ),
      line('All', entries),
    ],
  );
}

function countsByTest(entries: readonly CollectionEntry[], data: EvidenceData): string {
  const kinds = ENTRY_KINDS.filter((kind) => entries.some((entry) => entry.kind === kind && entry.test !== null));
  return markdownTable(
    ['test', ...kinds.map((kind) => KIND_WORDS[kind].toLowerCase())],
    data.tests.map((test) => [
      `\`${test.id}\``,
      ...kinds.map((kind) => entries.filter((entry) => entry.test === test.id && entry.kind === kind).length),
    ]),
  );
}

interface AccountEntry {
  readonly id: string;
  readonly left_out?: string;
}
interface Rename {
  readonly from: string;
  readonly to: readonly string[];
  readonly why: string;
}

function listOf<Entry>(root: string, name: string): readonly Entry[] {
  const path = join(root, 'tests', 'published', name);
  return existsSync(path) ? (parse(readFileSync(path, 'utf8')) as readonly Entry[]) : [];
}

function leftOut(root: string): string {
  const entries = listOf<AccountEntry>(root, 'account.yaml').flatMap(({ id, left_out }) =>
    left_out === undefined ? [] : [[`\`${id}\``, left_out]],
  );
  return textTable(['source, as first read', 'what was left out and why'], entries);
}

function renames(root: string): string {
  const entries = listOf<Rename>(root, 'renames.yaml').map(({ from, to, why }) => [
    `\`${from}\``,
    to.map((id) => `\`${id}\``).join(', '),
    why,
  ]);
  return textTable(['first read as', 'id here', 'why'], entries);
}

/** The text between `<!-- begin: NAME -->` and the next `<!-- end -->` replaced. Throws where the markers are not there. */
export function withBlock(text: string, name: string, block: string): string {
  const begin = `<!-- begin: ${name} -->`;
  const from = text.indexOf(begin);
  const to = text.indexOf('<!-- end -->', from);
  if (from === -1 || to === -1) throw new Error(`norms/README.md has no ${begin} ... <!-- end -->`);
  return `${text.slice(0, from + begin.length)}\n${block}\n${text.slice(to)}`;
}

/** Every generated file below `norms/` as it should be, by path relative to it. */
export function expectedNormsFiles(root: string, data: EvidenceData): ReadonlyMap<string, string> {
  const folder = join(root, 'norms');
  const entries = collectionOf(indexEvidence(data));
  const files = new Map<string, string>();
  for (const kind of KINDS) files.set(schemaFile(kind.name), jsonSchemaOf(kind));
  for (const { path, text } of readNormsFolder(folder)) files.set(path, withEditorLine(path, text));
  const blocks: readonly (readonly [string, string])[] = [
    ['counts', `${countsByStatus(entries)}\n\n${countsByTest(entries, data)}`],
    ['left out', leftOut(root)],
    ['renames', renames(root)],
  ];
  const page = readFileSync(join(folder, 'README.md'), 'utf8');
  files.set(
    'README.md',
    blocks.reduce((text, [name, block]) => withBlock(text, name, block), page),
  );
  return files;
}

/** Those of them that differ from what stands in the folder. */
export function staleNormsFiles(root: string, data: EvidenceData): ReadonlyMap<string, string> {
  const stale = [...expectedNormsFiles(root, data)].filter(([path, text]) => {
    const file = join(root, 'norms', path);
    return !existsSync(file) || readFileSync(file, 'utf8').replaceAll('\r\n', '\n') !== text;
  });
  return new Map(stale);
}
