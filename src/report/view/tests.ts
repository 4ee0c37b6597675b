/** The line of one test and what stands under it. */
import type { CutPointResult, TestResult } from '../../assessment.ts';
import { type Citations, withMark } from './citations.ts';
import { foldedNotes } from './notes.ts';
import { percentileWords, plainNumber, roundFor, unitWords, valueWithUnit } from './numbers.ts';
import { countingMarks, isNotTested, isUnable, markOf, primaryOf, standingWords } from './standing.ts';
import type { Cited, TestView } from './types.ts';
import { bandWords, plainId } from './words.ts';

export const labelOf = (test: TestResult): string => (test.side === null ? test.name : `${test.name}, ${test.side}`);

export function resultWords(test: TestResult): string {
  if (isNotTested(test)) return test.outcome === 'declined' ? 'declined' : 'not tested';
  if (isUnable(test)) return test.outcome === 'unable' ? 'unable' : 'stopped for balance';
  if (test.value === null) return 'no result';
  const value = `${test.at_least ? 'at least ' : ''}${valueWithUnit(test.value, test.unit)}`;
  return test.category === null ? value : `${value}, ${plainId(test.category)}`;
}

/** The trials as entered, where there was more than one. */
export function trialsWords({ trials, unit }: TestResult): string | null {
  if (trials.length < 2) return null;
  const last = trials.at(-1) ?? 0;
  return `${trials
    .slice(0, -1)
    .map((trial) => plainNumber(trial, unit))
    .join(', ')} and ${valueWithUnit(last, unit)}`;
}

export function placeWords(test: TestResult, citations: Citations): Cited | null {
  const primary = primaryOf(test);
  if (primary === null) return null;
  const band = bandWords(primary.band);
  const percentile = percentileWords(primary);
  const average =
    primary.expected === null ? null : `${centreWords(primary.method)} ${valueWithUnit(primary.expected, test.unit)}`;
  const text =
    percentile === null
      ? `${average ?? 'compared'} ${average === null ? 'with' : 'among'} ${band}`
      : `${percentile} of ${band}${average === null ? '' : `; ${average}`}`;
  return { text, mark: citations.mark({ source: primary.source, basis: primary.status }) };
}

const CENTRES: Readonly<Record<string, string>> = {
  mean_sd: 'average',
  mean_only: 'average',
  mean_ci: 'average',
  median_only: 'median',
  equation: 'predicted',
};
export const centreWords = (method: string): string => CENTRES[method] ?? 'median';

/** A mark that counts and is met, near or undecided. */
function cutWords(cut: CutPointResult): string {
  const outcome = `outcome: ${cut.outcome}`;
  if (cut.met === null) return `"${cut.rule}" cannot be decided: the watch was stopped before it; ${outcome}`;
  const near = cut.near === true ? `${cut.met ? ', but' : ', yet'} inside the measurement error of the mark` : '';
  return `"${cut.rule}" is ${cut.met ? 'met' : 'not met'}${near}; ${outcome}`;
}

function marksShown(test: TestResult, citations: Citations): Cited[] {
  return countingMarks(test)
    .filter((cut) => cut.met !== false || cut.near === true)
    .sort((a, b) => Number(b.met === true) - Number(a.met === true))
    .map((cut) => {
      const mark = citations.mark({ source: cut.source, basis: cut.status });
      return { text: `${cutWords(cut)}${inCopdWords(cut, citations)}`, mark };
    });
}

/** For clients with COPD, what is known there of a mark made for others; empty otherwise. */
export function inCopdWords({ in_copd: inCopd }: CutPointResult, citations: Citations): string {
  if (inCopd === null) return '';
  return `; ${withMark(inCopd.text, citations.mark({ source: inCopd.source, basis: inCopd.status }))}`;
}

function otherMarks(test: TestResult): string | null {
  if (isNotTested(test)) return null;
  const counting = countingMarks(test);
  if (counting.length === 0) return 'no mark linked with falls is held for this test and client';
  const clear = counting.filter((cut) => cut.met === false && cut.near !== true);
  return clear.length === 0 ? null : `not met: ${clear.map((cut) => `"${cut.rule}"`).join(', ')}`;
}

/** A result stopped at its ceiling has no interval: the true value may lie anywhere above. */
function errorWords({ measurement_error: error, unit, at_least: stopped }: TestResult, citations: Citations): Cited | null {
  if (error === null) return null;
  const coarse = unit === 'm/s' ? 2 : 1;
  const span =
    stopped || error.low === null || error.high === null
      ? []
      : [
          `the true value probably lies between ${roundFor(error.low, coarse)} and ${roundFor(error.high, coarse)} ${unitWords(unit, error.high)}`,
        ];
  const noise = error.mdc95 === null ? [] : [`a later change of up to ${valueWithUnit(error.mdc95, unit)} may be noise`];
  const text = [...span, ...noise].join('; ');
  return text === '' ? null : { text, mark: citations.mark({ source: error.source, basis: error.status }) };
}

/** "from tandem stance 8.5 s, ...": what a derived result came from. */
function derivedWords(test: TestResult, all: readonly TestResult[]): string[] {
  if (test.derived_from.length === 0) return [];
  const parts = test.derived_from.map(({ test: id, value }) => {
    const origin = all.find((other) => other.test === id);
    const name = (origin?.name ?? plainId(id)).toLowerCase();
    return value === null
      ? `${name} (no value)`
      : `${name} ${origin === undefined ? plainNumber(value) : valueWithUnit(value, origin.unit)}`;
  });
  return [`worked out from ${parts.join(', ')}`];
}

function testView(test: TestResult, all: readonly TestResult[], seen: Set<string>, citations: Citations): TestView {
  const notes = [...derivedWords(test, all), ...foldedNotes(test.notes)].filter((note) => !seen.has(note));
  for (const note of notes) seen.add(note);
  return {
    test: test.test,
    label: labelOf(test),
    mark: markOf(test),
    result: resultWords(test),
    standing: standingWords(test),
    reason: test.reason,
    trials: trialsWords(test),
    place: isNotTested(test) ? null : placeWords(test, citations),
    marks: isNotTested(test) ? [] : marksShown(test, citations),
    otherMarks: otherMarks(test),
    error: isNotTested(test) ? null : errorWords(test, citations),
    notes,
  };
}

/** In the order of the assessment; a note that concerns both sides of a test stands under the first. */
export function testViews(tests: readonly TestResult[], citations: Citations): TestView[] {
  const seen = new Map<string, Set<string>>(tests.map((test) => [test.test, new Set<string>()]));
  return tests.map((test) => testView(test, tests, seen.get(test.test) ?? new Set(), citations));
}
