/** What one row must come out as, by the path of a single visit: tree of the row, intake, assessment. Nothing is remembered between visits. */
import { assess } from '../../src/assess.ts';
import { compileLayout, type Layout } from '../../src/cohort/layout.ts';
import { readMapFile } from '../../src/cohort/map-file.ts';
import type { ColumnSettings } from '../../src/cohort/settings.ts';
import { DEFAULT_SETTINGS } from '../../src/cohort/settings.ts';
import { targetsOf } from '../../src/cohort/targets.ts';
import { treeOf } from '../../src/cohort/tree.ts';
import { briefOf, fromAssessment } from '../../src/cohort/whole.ts';
import { buildSession } from '../../src/intake/build.ts';
import { parseSession } from '../../src/intake/index.ts';
import type { Session } from '../../src/session.ts';
import { testEvidence } from '../support/evidence.ts';
import { TODAY } from './rows.ts';

const evidence = testEvidence();
const targets = targetsOf(evidence);

/** By heading of the output; a heading that is not here is an empty cell. */
export type ExpectedCells = ReadonlyMap<string, string>;

export interface SingleVisits {
  readonly layout: Layout;
  /** null where the visit is refused. `columns`: headings that the output has, since notes name only results with a column. */
  readonly score: (row: readonly string[], number: number, columns: readonly string[]) => ExpectedCells | null;
}

function settingsOf(map: string | null): ColumnSettings {
  if (map === null) return DEFAULT_SETTINGS;
  const read = readMapFile(map, targets);
  if ('settings' in read) return read.settings;
  throw new Error(JSON.stringify(read.problems));
}

function expectedCells(session: Session, columns: readonly string[]): ExpectedCells {
  const tests = evidence.tests.filter(({ id }) => columns.some((column) => column.startsWith(`${id}_`)));
  const assessment = assess(session, evidence, {});
  const { decided, notes } = fromAssessment(assessment, session, { evidence, tests, render: () => '' });
  const cells = assessment.tests.flatMap((result): [string, string][] => {
    const { value, percentile, bound, standing, flagged } = briefOf(result);
    const name = result.side === null ? result.test : `${result.test}_${result.side}`;
    return [
      [`${name}_value`, String(value ?? '')],
      [`${name}_percentile`, String(percentile ?? '')],
      [`${name}_bound`, bound === 'exact' ? '' : (bound ?? '')],
      [`${name}_standing`, standing ?? ''],
      [`${name}_flag`, flagged === null ? '' : flagged ? 'yes' : 'no'],
    ];
  });
  return new Map([...cells, ['risk_level', decided.level], ['missing', decided.missing.join('; ')], ['notes', notes]]);
}

/** The same visit as a file on disk would hold it: JSON is YAML. */
function asFile(tree: unknown): Session | null {
  return parseSession(JSON.stringify(tree), { file: 'row.yaml', catalogue: evidence, today: TODAY }).session;
}

const FILE_EVERY = 8;

/** null where the header cannot be used. */
export function singleVisits(headings: readonly string[], map: string | null): SingleVisits | null {
  const { layout } = compileLayout(headings, settingsOf(map), targets, evidence);
  if (layout === null) return null;
  let asked = 0;
  return {
    layout,
    score: (row, number, columns) => {
      const tree = treeOf(layout, row, { number, today: TODAY });
      asked += 1;
      const { session } = buildSession(tree, { catalogue: evidence, today: TODAY });
      if (session === null) return null;
      const read = asked % FILE_EVERY === 0 ? asFile(tree) : session;
      if (read === null) throw new Error(`refused as a file: ${JSON.stringify(tree)}`);
      return expectedCells(read, columns);
    },
  };
}
