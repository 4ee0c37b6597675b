/** The frozen files of this folder, read and checked for shape: printed cells, ids, accounting, renames and exceptions. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'yaml';
import { z } from 'zod';

const here = fileURLToPath(new URL('.', import.meta.url));
const read = (name: string): string => readFileSync(`${here}${name}`, 'utf8');

const Age = z.number().nullable();
const PrintedRow = z.strictObject({
  row: z.number(),
  /** `null`: a history item, a screen or a rate, which is no test of this project; absent: the test of the entry. */
  test: z.string().nullable().optional(),
  status: z.string().optional(),
  sex: z.enum(['female', 'male', 'all']).optional(),
  age_min: Age.optional(),
  age_max: Age.optional(),
  strata: z.record(z.string(), z.union([z.string(), z.number(), z.boolean()])).default({}),
  cells: z.record(z.string(), z.union([z.number(), z.array(z.number().nullable())])),
});
export type PrintedRow = z.infer<typeof PrintedRow>;

const PrintedEntry = z.strictObject({
  file: z.string(),
  id: z.string(),
  kind: z.string(),
  test: z.string().nullable(),
  unit: z.string(),
  status: z.string(),
  location: z.string(),
  citation_short: z.string(),
  doi: z.string().nullable(),
  n: z.number().nullable(),
  population: z.string(),
  protocol: z.string(),
  rows: z.array(PrintedRow).min(1),
});
export type PrintedEntry = z.infer<typeof PrintedEntry>;

export const printedEntries: readonly PrintedEntry[] = z
  .strictObject({ about: z.string(), entries: z.array(PrintedEntry) })
  .parse(JSON.parse(read('printed-cells.json'))).entries;

export const evidenceIds = z
  .array(z.strictObject({ file: z.string(), id: z.string(), kind: z.string() }))
  .parse(JSON.parse(read('evidence-ids.json')));

const Account = z.strictObject({
  file: z.string(),
  id: z.string(),
  carried: z.array(z.string()).default([]),
  left_out: z.string().optional(),
});
export const account: readonly z.infer<typeof Account>[] = z.array(Account).parse(parse(read('account.yaml')));

const Rename = z.strictObject({ from: z.string(), file: z.string().optional(), to: z.array(z.string()).min(1), why: z.string() });
export const renames: readonly z.infer<typeof Rename>[] = z.array(Rename).parse(parse(read('renames.yaml')));

const NotCarried = z.strictObject({
  /** `*`: any entry (of that kind). */
  entry: z.string(),
  kind: z.string().optional(),
  rows: z.array(z.number()).optional(),
  keys: z.array(z.string()).optional(),
  why: z.string(),
});
const Derived = z.strictObject({ place: z.string(), keys: z.array(z.string()).min(1), why: z.string() });
/** `not_carried`: printed cells without a place in norms/. `derived`: numbers of norms/ that no source prints as they stand. */
export const exceptions = z
  .strictObject({ not_carried: z.array(NotCarried), derived: z.array(Derived) })
  .parse(parse(read('exceptions.yaml')));

/** `area/id`: an id alone may stand for two entries. */
export const nameOf = ({ file, id }: { readonly file: string; readonly id: string }): string => `${file}/${id}`;

/** Ids under which an entry stands in norms/; an entry that serves several papers has several. */
export function sourcesOf(file: string, id: string): readonly string[] {
  const own = renames.filter((rename) => rename.from === id && (rename.file ?? file) === file);
  return own.length === 0 ? [id] : own.flatMap((rename) => rename.to);
}
