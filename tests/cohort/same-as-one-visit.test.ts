/** A row of a cohort is scored exactly as the same visit is on its own. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Accepted } from '../../src/cohort/row-scorer.ts';
import { RowScorer } from '../../src/cohort/row-scorer.ts';
import type { ColumnSettings } from '../../src/cohort/settings.ts';
import { DEFAULT_SETTINGS } from '../../src/cohort/settings.ts';
import { Signatures } from '../../src/cohort/signature.ts';
import { treeOf } from '../../src/cohort/tree.ts';
import { fromAssessment } from '../../src/cohort/whole.ts';
import { buildSession } from '../../src/intake/build.ts';
import { isRefusal } from '../../src/intake/problems.ts';
import { testEvidence } from '../support/evidence.ts';
import { cohort, layoutFor, repetitive, TODAY } from './rows.ts';

const evidence = testEvidence();
const render = (): string => '';
const shown = ({ tests, decided, notes, age, sex }: Accepted) => ({
  age,
  sex,
  notes,
  results: tests.map(({ results }) => results),
  facts: tests.map(({ fact }) => fact),
  decided: { ...decided, redFlags: decided.redFlags.map(({ id }) => id) },
});

function check(
  headings: readonly string[],
  rows: readonly (readonly string[])[],
  pathway: string,
  settings: ColumnSettings = DEFAULT_SETTINGS,
): number {
  const layout = layoutFor(headings, settings);
  let accepted = 0;
  const scorer = new RowScorer(layout, evidence, { today: TODAY, pathway, withPlan: true, render });
  rows.forEach((row, index) => {
    const scored = scorer.score(row, index + 2);
    const { session, findings } = buildSession(treeOf(layout, row, { number: index + 2, today: TODAY }), {
      catalogue: evidence,
      today: TODAY,
    });
    if (session === null) {
      expect(scored, row.join('|')).toEqual({ kind: 'refused', findings: findings.filter(isRefusal) });
      return;
    }
    accepted += 1;
    if (scored.kind === 'refused') throw new Error(`refused: ${row.join('|')}`);
    const alone = fromAssessment(assess(session, evidence, { pathway }), session, {
      evidence,
      tests: scorer.outputTests,
      render,
    });
    expect(shown(scored), headings.map((heading, at) => `${heading}=${row[at]}`).join(' ')).toEqual(shown(alone));
  });
  return accepted;
}

describe('a row of a cohort', () => {
  it.each(evidence.pathways.map(({ id }) => id))('is scored as one visit is, whatever its cells hold, by %s', (pathway) => {
    fc.assert(
      fc.property(cohort({ min: 1, max: 30 }), ({ headings, rows }) => void check(headings, rows, pathway)),
      { numRuns: 40 },
    );
  });

  // What is remembered of one client must not reach another: the same cells come again with other ages, sexes and histories.
  it.each(evidence.pathways.map(({ id }) => id))(
    'is scored as one visit is when its parts were seen before, by %s',
    (pathway) => {
      let accepted = 0;
      fc.assert(
        fc.property(repetitive(80), ({ headings, rows }) => {
          accepted += check(headings, rows, pathway);
        }),
        { numRuns: 40 },
      );
      expect(accepted).toBeGreaterThan(800);
    },
  );

  it('is scored as one visit is where the map states ceiling, course and chair', () => {
    const rule = (to: string, more: object) => ({ to, ...more });
    const columns = {
      R: rule('single_leg_stance_eyes_open_right', { ceiling: 30 }),
      L: rule('single_leg_stance_eyes_open_left', { ceiling: 30 }),
      walk: rule('gait_speed_usual', { as: 'time', distance: 4, start: 'standing' }),
      chair: rule('five_times_sit_to_stand', { chair_cm: 43 }),
    };
    const row = fc.tuple(
      fc.constantFrom('female', 'male'),
      fc.constantFrom('62', '70', '78', '86'),
      fc.constantFrom('', '4', '10', '30', 'unable'),
      fc.constantFrom('', '6', '30'),
      fc.constantFrom('', '3', '5', '8', 'unable'),
      fc.constantFrom('', '10', '14', '20'),
      fc.constantFrom('', '10', '5'),
    );
    const headings = ['sex', 'age', 'R', 'L', 'walk', 'chair', 'tandem_stance'];
    const settings: ColumnSettings = { ...DEFAULT_SETTINGS, columns };
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 60, maxLength: 60 }),
        (rows) => void check(headings, rows, 'world_falls_guidelines_2022', settings),
      ),
      { numRuns: 15 },
    );
  });

  // Some columns settle a derived result only where one stance was held and the next was not.
  it('forms every derived result that the visit alone forms', () => {
    const accepted = check(
      ['age', 'sex', 'semi_tandem_stance', 'tandem_stance'],
      [['74', 'female', '10', '2.9']],
      'world_falls_guidelines_2022',
    );
    expect(accepted).toBe(1);
    const layout = layoutFor(['age', 'semi_tandem_stance', 'tandem_stance']);
    const scorer = new RowScorer(layout, evidence, { today: TODAY, withPlan: true, render });
    expect(scorer.outputTests.map(({ id }) => id)).toContain('four_stage_balance');
  });

  it('the built-in norms ask for nothing that cannot be remembered', () => {
    for (const { id } of evidence.pathways)
      expect(new Signatures(evidence, { pathway: id, withPlan: true }).asksForError).toBe(false);
  });
});
