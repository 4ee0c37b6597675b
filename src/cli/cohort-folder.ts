/** A folder of visit files as a cohort: one row a file, in order of path. */

import type { Column, Layout } from '../cohort/layout.ts';
import { csvLine, rowWriter, type SlotsOf } from '../cohort/output.ts';
import { quantity } from '../cohort/reasons.ts';
import type { Accepted } from '../cohort/row-scorer.ts';
import { RowScorer } from '../cohort/row-scorer.ts';
import { PartBuilder } from '../cohort/summary/part-builder.ts';
import type { Summary } from '../cohort/summary/types.ts';
import type { Evidence } from '../evidence/data.ts';
import { formatProblem, parseSession } from '../intake/index.ts';
import type { Session } from '../session.ts';
import { formatOf } from './cohort.ts';
import { checkBy, checkFolderOptions } from './cohort-checks.ts';
import type { CohortContext } from './cohort-context.ts';
import { openOutputs } from './cohort-outputs.ts';
import { summarise, writeSummary } from './cohort-summary.ts';
import { EXIT, fileErrorInWords } from './io.ts';
import { visitFiles } from './visit-files.ts';

interface ReadFile {
  readonly file: string;
  readonly session: Session | null;
  readonly reasons: readonly string[];
}

const HEADINGS: readonly string[] = ['file', 'ref', 'assessed', 'sex', 'age', 'setting'];
/** Those of them that tell one client from all others. */
const PERSONAL: readonly string[] = ['file', 'ref'];
const DELIMITER = ',';

function readFiles(folder: string, { invocation: { io }, evidence }: CohortContext): ReadFile[] {
  return visitFiles([folder], io).map((file) => {
    let text: string;
    try {
      text = io.readFile(file);
    } catch (error) {
      return { file, session: null, reasons: [`${file}: cannot be read: ${fileErrorInWords(error)}`] };
    }
    const { session, problems } = parseSession(text, { file, catalogue: evidence, today: io.today() });
    return { file, session, reasons: problems.filter(({ severity }) => severity === 'error').map(formatProblem) };
  });
}

const column = (index: number): Column => {
  const heading = HEADINGS[index] ?? '';
  return { index, heading, name: heading, rule: { to: heading }, read: (text) => text };
};

/** Columns for every test and side that any visit has. */
function layoutOf(sessions: readonly Session[], evidence: Evidence): Layout {
  const tests = evidence.tests.flatMap((test) => {
    const found = new Set(
      sessions.flatMap((session) => session.tests.flatMap((each) => (each.test === test.id ? [each.side] : []))),
    );
    const sides = ([null, 'right', 'left'] as const).filter((side) => found.has(side)).map((side) => ({ side, columns: [] }));
    return sides.length === 0 ? [] : [{ kind: 'test' as const, test, sides }];
  });
  return { headings: HEADINGS, dates: 'ymd', ref: column(1), assessed: column(2), client: {}, fields: [], tests };
}

const rowOf = (file: string, { client, assessed }: Session): string[] => [
  file,
  client.ref,
  assessed,
  client.sex,
  String(client.age),
  client.setting,
];

interface Scored {
  readonly session: Session;
  readonly accepted: Accepted;
}

/** Everything that the files of one folder are scored with. */
function folderScorer(files: readonly ReadFile[], { invocation, options, evidence }: CohortContext) {
  const sessions = files.flatMap(({ session }) => (session === null ? [] : [session]));
  const scorer = new RowScorer(layoutOf(sessions, evidence), evidence, {
    pathway: options.pathway,
    pathwayOptions: options.pathwayOption,
    population: invocation.population,
    today: invocation.io.today(),
    withPlan: true,
    render: (test, results) => writer.render(test, results),
  });
  const slotsOf: SlotsOf = (test) => scorer.sidesOf(test.id);
  const writer = rowWriter(formatOf(options), { headings: HEADINGS, slots: scorer.slots, slotsOf, delimiter: DELIMITER });
  const by = options.by === undefined ? null : HEADINGS.indexOf(options.by);
  return { scorer, writer, builder: new PartBuilder({ scorer, by, kept: [0] }), scored: new Map<string, Scored>() };
}

type FolderScorer = ReturnType<typeof folderScorer>;

async function writeRows(files: readonly ReadFile[], by: FolderScorer, context: CohortContext): Promise<void> {
  const { options, streams, invocation } = context;
  const { scorer, writer, builder, scored } = by;
  const outputs = await openOutputs(options, streams);
  try {
    await outputs.rows(writer.heading);
    await outputs.rejects(csvLine(['file', 'reasons'], DELIMITER));
    for (const { file, session, reasons } of files) {
      if (session === null) {
        builder.refused();
        await outputs.rejects(csvLine([file, reasons.join(' | ')], DELIMITER));
        if (options.rejects === undefined) for (const reason of reasons) invocation.io.stderr.write(`${reason}\n`);
        continue;
      }
      const accepted = scorer.scoreSession(session);
      scored.set(file, { session, accepted });
      const row = rowOf(file, session);
      builder.accepted(accepted, row);
      await outputs.rows(writer.row(row, accepted));
    }
    await outputs.commit();
  } catch (error) {
    await outputs.discard();
    throw error;
  }
}

function summaryOf({ scorer, builder, scored }: FolderScorer, { options, evidence }: CohortContext): Summary {
  return summarise({
    part: builder.part(),
    known: [],
    scorer,
    evidence,
    pathway: options.pathway,
    by: options.by ?? null,
    masked: options.unmasked !== true,
    readVisit: ({ cells }) => {
      const visit = scored.get(cells);
      return visit === undefined ? null : { session: visit.session, level: visit.accepted.decided.level };
    },
  });
}

export async function scoreFolder(folder: string, context: CohortContext): Promise<void> {
  const { invocation, options } = context;
  checkFolderOptions(options);
  checkBy(HEADINGS, PERSONAL, options);
  const files = readFiles(folder, context);
  const by = folderScorer(files, context);
  await writeRows(files, by, context);
  if (options.summary !== undefined) writeSummary(options.summary, summaryOf(by, context), invocation);
  const [read, accepted] = [files.length, by.scored.size];
  const refused = read - accepted;
  invocation.io.stderr.write(`${folder}: ${quantity(read, 'file')} read, ${accepted} accepted, ${refused} refused\n`);
  invocation.finish(refused > 0 ? EXIT.refused : EXIT.done);
}
