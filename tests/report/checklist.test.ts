/**
 * What a report must show so that a professional can review its basis independently (from guidance on clinical decision
 * support, CDS): one line a point, for the page, the Markdown and the record.
 */
import { describe, expect, test } from 'vitest';
import { renderHtml } from '../../src/report/html/report.ts';
import { renderJson } from '../../src/report/json.ts';
import { renderMarkdown } from '../../src/report/markdown/report.ts';
import { visitView } from '../../src/report/view/visit.ts';
import { testEvidence } from '../support/evidence.ts';
import { EMPTY, EXAMPLES, example, visitOf } from './visits.ts';

/** Without markup, so that the same words can be looked for in every format. */
const words = (text: string): string =>
  text
    .replace(/<style>[\s\S]*?<\/style>/, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&quot;/g, '"')
    .replace(/&#39;/g, "'")
    .replace(/&gt;/g, '>')
    .replace(/&lt;/g, '<')
    .replace(/&amp;/g, '&')
    .replace(/\\(?=[\\`*_{}[\]<>#|~$^@&.-])/g, '')
    .replace(/\*\*/g, '')
    .replace(/\s+/g, ' ');

const paper = (visit: ReturnType<typeof visitOf>): [string, string][] => {
  const view = visitView(visit, testEvidence());
  return [
    ['html', words(renderHtml([view], { full: true }))],
    ['markdown', words(renderMarkdown([view], { full: true }))],
  ];
};

describe.each(EXAMPLES)('%s', (name) => {
  const visit = example(name);
  const { assessment, session } = visit;
  const done = assessment.tests.filter((each) => each.comparisons.some((comparison) => comparison.primary));

  describe.each(paper(visit))('%s', (_format, text) => {
    test('purpose: for whom, about whom, not for urgent decisions', () => {
      for (const part of ['registered health professionals', 'older adults', 'not for urgent decisions'])
        expect(text).toContain(part);
    });
    test('inputs: every value read, in the order typed, with side, unit and date', () => {
      const typed = text.slice(text.indexOf('What was typed in', text.indexOf('Basis')));
      const places = session.tests.map((each) => typed.indexOf(testEvidence().testById.get(each.test)?.name ?? '?'));
      expect(places.every((place) => place >= 0)).toBe(true);
      for (const each of session.tests)
        for (const trial of each.reading.outcome === 'measured' ? each.reading.trials : [])
          expect(typed).toContain(String(Math.round(trial * 1000) / 1000));
      expect(Object.keys(session.fields).length).toBeGreaterThan(5);
    });
    test('inputs-how: where to read how each value is obtained', () => {
      for (const each of session.tests) expect(text).toContain(`footing protocol ${each.test}`);
    });
    test('gaps: what was missing, refused, unable, not asked', () => {
      for (const each of assessment.tests.filter((one) => one.reason !== null)) expect(text).toContain(each.reason);
      for (const point of assessment.risk.not_asked) expect(text).toContain(point);
      for (const note of assessment.notes) expect(text).toContain(note.replace(/\s+/g, ' '));
    });
    test('row, formula, fit: the row used, with this client in the formula, and how far it fits', () => {
      for (const each of done) {
        const primary = each.comparisons.find((comparison) => comparison.primary);
        expect(text).toContain(primary?.working.row);
        expect(text).toContain(primary?.working.formula);
        expect(text).toContain(primary?.population);
        for (const misfit of primary?.mismatches ?? []) expect(text).toContain(misfit);
      }
    });
    test('source: citation, DOI, place, how it was read', () => {
      for (const each of done) {
        const primary = each.comparisons.find((comparison) => comparison.primary);
        const source = assessment.sources[primary?.source ?? ''];
        expect(text).toContain(source?.citation.replace(/\s+/g, ' '));
        if (source?.doi !== null) expect(text).toContain(`doi:${source?.doi}`);
        if (primary?.status === 'abstract') expect(text).toContain('read in the abstract');
        if (primary?.status === 'memory') expect(text).toContain('recalled, not checked against the paper');
      }
    });
    test('uncertainty: measurement error, marks that are near, tables that disagree', () => {
      if (done.some((each) => typeof each.measurement_error?.mdc95 === 'number')) expect(text).toContain('smallest real change');
      if (assessment.tests.some((each) => each.cut_points.some((cut) => cut.counts && cut.near === true)))
        expect(text).toContain('inside the measurement error');
      if (assessment.tests.some((each) => each.notes.some((note) => note.startsWith('by '))))
        expect(text).toContain('other tables disagree');
    });
    test('rule-path: every node with the input it read and the answer', () => {
      for (const step of assessment.risk.steps) {
        expect(text).toContain(step.question);
        if (step.reached === 'yes') expect(text).toContain(`${step.question} ${step.answer.toUpperCase()}`);
      }
    });
    test('options and judgement: to tick, not an order; judgement stays with the professional', () => {
      for (const part of ['Options for the professional to tick', 'does not replace judgement']) expect(text).toContain(part);
      for (const exercise of assessment.plan.filter((each) => !each.held)) expect(text).toContain(exercise.name);
    });
    test('versions and plain language', () => {
      expect(text).toContain(`evidence ${assessment.evidence.version}`);
      expect(text).toContain(assessment.tool.version);
      expect(text).toContain('Percentile: of 100 people of the group named, how many do worse');
    });
  });

  test('the record holds the same, by key', () => {
    const record = JSON.parse(renderJson([assessment], { asArray: false })) as typeof assessment;
    expect(record.recorded).toEqual(session.fields);
    expect(record.tests.map((each) => [each.test, each.side, each.trials])).toEqual(
      assessment.tests.map((each) => [each.test, each.side, each.trials]),
    );
    for (const each of done) {
      const primary = record.tests
        .find((one) => one.test === each.test && one.side === each.side)
        ?.comparisons.find((comparison) => comparison.primary);
      for (const key of ['source', 'location', 'status', 'population', 'mismatches', 'working', 'band'] as const)
        expect(primary?.[key]).toBeDefined();
    }
    expect(record.risk.steps.every((step) => 'because' in step && 'answer' in step)).toBe(true);
    expect(record.risk.not_asked).toEqual(assessment.risk.not_asked);
    expect(record.cautions.map((caution) => caution.text).join(' ')).toContain('judgement');
    expect(record.evidence.digest).toBe(assessment.evidence.digest);
    for (const each of done) expect(record.sources[each.comparisons[0]?.source ?? '']?.citation).toBeDefined();
  });
});

test('a visit without any answer says what is missing, and does not guess', () => {
  for (const [, text] of paper(visitOf(EMPTY))) {
    expect(text).toContain('Cannot be settled yet');
    expect(text).toContain('No test was recorded.');
    expect(text).toMatch(/(UNKNOWN|PERHAPS REACHED)/);
  }
});

test('no urgent code and no score of our own anywhere in the record', () => {
  for (const name of EXAMPLES) {
    const record = renderJson([example(name).assessment], { asArray: false });
    expect(record).not.toMatch(/"(HH|LL|AA)"/);
    expect(record).toContain('"probability": null');
  }
});
