/** `footing norms list`: what the collection holds, one entry a paper, test and kind. */
import { Command, Option } from 'commander';
import { type CollectionEntry, collectionOf, ENTRY_KINDS, KIND_WORDS } from '../evidence/collection.ts';
import type { Evidence } from '../evidence/data.ts';
import { STATUSES } from '../evidence/schema/words.ts';
import { nearest } from '../intake/near.ts';
import { escapedJson } from '../report/json.ts';
import { evidenceFor } from './evidence.ts';
import { CannotStart } from './io.ts';
import type { Invocation } from './main.ts';

interface ListOptions {
  readonly format: 'text' | 'json';
  readonly json?: boolean;
  readonly test?: string;
  readonly kind?: string;
  readonly status?: string;
}

const HELP = `
A status says how the numbers were read: ${STATUSES.join(', ')}.

Examples:
  footing norms list --test gait_speed_usual
  footing norms list --kind table --status memory --format json
`;

export function listCommand(invocation: () => Invocation): Command {
  return new Command('list')
    .description('list tables, cut-points, errors and ratios with their sources')
    .option('--test <id>', 'only of this test')
    .addOption(new Option('--kind <kind>', 'only of this kind').choices(ENTRY_KINDS))
    .addOption(new Option('--status <status>', 'only what was read so').choices(STATUSES))
    .addOption(new Option('-f, --format <format>', 'how to print').choices(['text', 'json']).default('text'))
    .option('--json', 'the same as --format json')
    .addHelpText('after', HELP)
    .action((options: ListOptions) => list(options, invocation()));
}

/** @throws CannotStart with the nearest known id where the catalogue has no such test. */
export function checkTest(evidence: Evidence, id: string): void {
  if (evidence.testById.has(id)) return;
  const known = evidence.tests.map((test) => test.id);
  const near = nearest(id, known);
  throw new CannotStart(`there is no test "${id}"${near === undefined ? `; known: ${known.join(', ')}` : `; perhaps ${near}`}`);
}

async function list(options: ListOptions, invocation: Invocation): Promise<void> {
  const { io } = invocation;
  const evidence = await evidenceFor(invocation);
  if (options.test !== undefined) checkTest(evidence, options.test);
  const entries = collectionOf(evidence).filter(
    (entry) =>
      (options.test === undefined || entry.test === options.test) &&
      (options.kind === undefined || entry.kind === options.kind) &&
      (options.status === undefined || entry.status === options.status),
  );
  const asJson = options.json === true || options.format === 'json';
  io.stdout.write(asJson ? escapedJson(entries) : asText(entries, evidence));
}

/** Under each test its kinds; source, status, rows and location in a line, never cut. */
function asText(entries: readonly CollectionEntry[], evidence: Evidence): string {
  const lines: string[] = [];
  let heading = '';
  const width = Math.max(0, ...entries.map((entry) => entry.source.length));
  for (const entry of entries) {
    const name =
      entry.test === null ? 'No single test' : `${evidence.testById.get(entry.test)?.name ?? entry.test} (${entry.test})`;
    const title = `${name}: ${KIND_WORDS[entry.kind].toLowerCase()}`;
    if (title !== heading) lines.push(...(heading === '' ? [] : ['']), title);
    heading = title;
    lines.push(
      `  ${entry.source.padEnd(width)}  ${entry.status.padEnd(9)}  ${String(entry.rows).padStart(3)}  ${entry.location}`,
    );
  }
  const count = entries.length === 1 ? '1 entry' : `${entries.length} entries`;
  return `${[...lines, ...(lines.length === 0 ? [] : ['']), `${count}; footing norms show SOURCE prints one as its paper has it`].join('\n')}\n`;
}
