/** What the plan holds beside start and dose is read in every report, not only in the JSON record. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { renderHtml } from '../../src/report/html/report.ts';
import { renderMarkdown } from '../../src/report/markdown/report.ts';
import { renderText } from '../../src/report/text.ts';
import { visitView } from '../../src/report/view/visit.ts';
import type { Session } from '../../src/session.ts';
import { measured, recorded, session } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

const evidence = testEvidence();
const plain = (text: string): string => text;

const visit: Session = {
  ...session(
    [
      recorded('single_leg_stance_eyes_open', measured(20, { ceiling: 30 }), 'right'),
      recorded('single_leg_stance_eyes_open', measured(18, { ceiling: 30 }), 'left'),
      recorded('tandem_stance', measured(10, { ceiling: 10 })),
      recorded('timed_up_and_go', 9),
      recorded('gait_speed_usual', 1.2),
      recorded('five_times_sit_to_stand', 10),
    ],
    {
      'history.falls_past_year': 0,
      'history.feels_unsteady': 'no',
      'history.worries_about_falling': 'no',
      'health.lung_condition': 'copd',
      'health.clinical_frailty_scale': 2,
    },
  ),
  assessor: 'A. Tester',
  planWishes: { days: 3, minutesADay: 30, exercises: { squat: { level: 1, reason: 'sore knee' }, toe_raises: { level: 0 } } },
};
const assessment = assess(visit, evidence);
const view = visitView({ assessment, session: visit }, evidence);

/** One line, without markup, entities or escapes. */
const bare = (text: string): string =>
  text
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replace(/\\(?=[^\w\s])/g, '')
    .replace(/\s+/g, ' ');

const REPORTS: Readonly<Record<string, string>> = {
  html: bare(renderHtml([view])),
  markdown: bare(renderMarkdown([view])),
  text: bare(renderText([assessment], { width: 110, colour: { bold: plain, dim: plain, cyan: plain }, full: true })),
};

describe.each(Object.entries(REPORTS))('%s', (_, report) => {
  it('what was set by hand, with what was suggested', () => {
    expect(report).toContain('set by A. Tester: level 1 (sore knee)');
    expect(report).toMatch(/suggested was level \d/);
  });

  it('how the dose is adapted to the client', () => {
    const adapted = assessment.plan.flatMap((exercise) => exercise.adaptations);
    expect(adapted.length).toBeGreaterThan(0);
    for (const { text } of adapted) expect(report).toContain(text);
  });

  it('the week, its minutes and the target', () => {
    expect(assessment.week?.days).toHaveLength(3);
    expect(report).toContain(`Together ${assessment.week?.minutes} min a week`);
    expect(report).toContain(assessment.week?.target);
  });

  it('the next rung, and who takes the client there', () => {
    const next = assessment.plan.flatMap((exercise) => exercise.next ?? []);
    expect(new Set(next.map(({ by }) => by))).toEqual(new Set(['client', 'professional']));
    for (const { level, name, by, because } of next)
      expect(report).toContain(
        `level ${level}, "${name}": ${by === 'client' ? 'the client may move there alone' : `with the professional, ${because}`}`,
      );
  });
});
