/** The one way from a change to what any format prints. */
import type { Change, TestChange, Verdict } from '../../change/types.ts';
import { type Citations, numberedCitations, withMark } from '../view/citations.ts';
import { dateWords, plainNumber, unitWords, valueWithUnit } from '../view/numbers.ts';
import { sanitisedDeep } from '../view/sanitise.ts';
import type { Cited } from '../view/types.ts';
import { clientWords } from '../view/words.ts';
import { movesInWords, planViews } from './plan.ts';
import { riskWords } from './risk.ts';
import type { ChangeGroupView, ChangeTestView, ChangeView } from './types.ts';
import {
  changeWords,
  comparedWords,
  crossedWords,
  errorWords,
  labelOf,
  mattersWords,
  otherErrorWords,
  resultWords,
  spanWords,
  standingWords,
  VERDICT_ORDER,
  verdictHeading,
  verdictWords,
} from './words.ts';

const markOf = (based: { source: string; status: TestChange['crossed'][number]['status'] }, citations: Citations): string =>
  citations.mark({ source: based.source, basis: based.status });

function visitLines(test: TestChange): string[] {
  const { unit, since_previous: previous, against_best: best, trend } = test;
  const slope = trend === null ? null : Math.abs(trend.per_month);
  return [
    ...(previous === null ? [] : [comparedWords(previous, unit, 'Against the visit before')]),
    ...(best === null || best.from === previous?.from ? [] : [comparedWords(best, unit, 'Against the best before')]),
    ...(trend === null || slope === null
      ? []
      : [
          trend.direction === 'same'
            ? `Trend over ${trend.visits} visits: level`
            : `Trend over ${trend.visits} visits: ${plainNumber(slope, unit)} ${unitWords(unit, slope)} ${trend.direction} a month (median of all slopes)`,
        ]),
  ];
}

function disputedWords(test: TestChange): string | null {
  if (!test.disputed) return null;
  const beyond = test.verdict === 'improved' || test.verdict === 'worsened';
  return beyond
    ? 'disputed: by another published error this lies within error'
    : 'disputed: by another published error this is more than error';
}

const quoted = (rules: readonly string[]): string => [...new Set(rules)].map((rule) => `"${rule}"`).join(', ');

/** Marks that do not count for falls, in one sentence with their sources. */
function otherMarks(marks: TestChange['crossed'], citations: Citations): string | null {
  if (marks.length === 0) return null;
  const cited = marks.map((mark) => withMark(`"${mark.rule}"`, markOf(mark, citations)));
  return `also crossed, shown only, not counted for falls: ${cited.join(', ')}`;
}

const SHOWN_SHORT = 2;

/** Marks that the result is clear of come first; beyond two only their number. */
function someMarks(marks: TestChange['crossed']): string {
  const rules = [...new Set([...marks].sort((a, b) => Number(a.near) - Number(b.near)).map((mark) => mark.rule))];
  const more = rules.length - SHOWN_SHORT;
  return `${quoted(rules.slice(0, SHOWN_SHORT))}${more > 0 ? ` and ${more} more` : ''}`;
}

function shortMarks(marks: TestChange['crossed']): string | null {
  const [into, outOf] = (['into', 'out_of'] as const).map((way) => marks.filter((mark) => mark.way === way));
  const parts = [
    ...(into === undefined || into.length === 0 ? [] : [`now in ${someMarks(into)}`]),
    ...(outOf === undefined || outOf.length === 0 ? [] : [`no longer in ${someMarks(outOf)}`]),
  ];
  return parts.length === 0 ? null : parts.join('; ');
}

/** Errors by which nothing would be otherwise, in one sentence. */
function sameErrors(test: TestChange, citations: Citations): string | null {
  const same = test.other_errors.filter((error) => error.verdict === test.verdict);
  if (same.length === 0) return null;
  const cited = same.map((error) =>
    withMark(
      `${valueWithUnit(error.mdc95, test.unit)}${error.concerns_client ? '' : ' (other people)'}`,
      markOf(error, citations),
    ),
  );
  return `published also, with the same verdict: ${cited.join(', ')}`;
}

/** A test that was not done at the first visit starts later: then its day stands beside the value. */
function beforeWords(test: TestChange, from: string): string {
  const words = resultWords(test.before_result, test.unit);
  return test.before_result.assessed === from ? words : `${words} (${dateWords(test.before_result.assessed)})`;
}

function testView(test: TestChange, from: string, citations: Citations): ChangeTestView {
  const important = test.important;
  const counting = test.crossed.filter((mark) => mark.counts);
  return {
    label: labelOf(test),
    verdict: test.verdict,
    before: beforeWords(test, from),
    after: resultWords(test.after_result, test.unit),
    change: changeWords(test, test.unit),
    verdictWords: verdictWords(test.verdict),
    disputed: disputedWords(test),
    because: test.because,
    error: test.error === null ? null : { text: errorWords(test.error, test.unit), mark: markOf(test.error, citations) },
    matters: { text: mattersWords(test), mark: important === null ? '' : markOf(important, citations) },
    standing: standingWords(test),
    crossed: counting.map((mark) => ({ text: crossedWords(mark), mark: markOf(mark, citations) })),
    crossedOther: otherMarks(
      test.crossed.filter((mark) => !mark.counts),
      citations,
    ),
    marksShort: shortMarks(counting),
    sameErrors: sameErrors(test, citations),
    otherErrors: test.other_errors
      .filter((error) => error.verdict !== test.verdict)
      .map((error) => ({ text: otherErrorWords(error, test.unit, test.verdict), mark: markOf(error, citations) })),
    notes: test.notes,
    visits: visitLines(test),
    dates: test.series.map((result) => ({ date: dateWords(result.assessed), result: resultWords(result, test.unit) })),
    source: test,
  };
}

const isComparable = (test: TestChange): boolean => test.direction !== null;

/** A line of the summary: both values, since a difference alone says little. */
function summaryLine(test: ChangeTestView): string {
  const marks = test.marksShort === null ? '' : `; ${test.marksShort}`;
  return `${test.label}: ${test.before} to ${test.after}${test.disputed === null ? '' : ' (disputed)'}${marks}`;
}

function groupViews(tests: readonly ChangeTestView[]): ChangeGroupView[] {
  return VERDICT_ORDER.map((verdict) => ({
    verdict,
    heading: verdictHeading(verdict),
    tests: tests.filter((test) => test.verdict === verdict).map(summaryLine),
  })).filter((group) => group.tests.length > 0);
}

const COUNTS: readonly (readonly [Verdict, string])[] = [
  ['worsened', 'worse'],
  ['improved', 'better'],
  ['within_error', 'within error'],
  ['cannot_tell', 'cannot be told'],
];

/** "0 worse, 4 better (more than error); 5 within error; 2 cannot be told". */
function countWords(tests: readonly ChangeTestView[]): string {
  const parts = COUNTS.map(([verdict, word]) => `${tests.filter((test) => test.verdict === verdict).length} ${word}`);
  return `By more than measurement error: ${parts.slice(0, 2).join(', ')}. Otherwise: ${parts.slice(2).join(', ')}.`;
}

const HOW_TO_READ =
  'A change counts as real in one person only when it is larger than the smallest change that measurement error can explain (95 %). Within error means that it may be chance, not that nothing happened. What matters to patients on average is another question and is answered apart.';

/** Order, rounding, words and marks of everything a change report shows; without control characters or escapes. */
export function changeView(given: Change): ChangeView {
  const change = sanitisedDeep(given);
  const citations = numberedCitations(change.sources);
  const tests = change.tests.filter(isComparable).map((test) => testView(test, change.from, citations));
  const ordered = VERDICT_ORDER.flatMap((verdict) => tests.filter((test) => test.verdict === verdict));
  const visits = change.visits.length === 2 ? '' : `, ${change.visits.length} visits`;
  const folders = change.evidence.folders.length === 0 ? '' : `; also norms from ${change.evidence.folders.join(', ')}`;
  const flags = change.risk.red_flags;
  return {
    ref: change.client.ref,
    client: clientWords(change.client),
    span: `${dateWords(change.from)} to ${dateWords(change.to)}, ${spanWords(change.days)}${visits}`,
    counts: countWords(ordered),
    groups: groupViews(ordered),
    look: [
      ...flags.new.map((finding) => `New warning sign: ${finding}`),
      ...flags.still.map((finding) => `Warning sign as at the first visit: ${finding}`),
      ...change.tests.flatMap((test) => (test.review === null ? [] : [`${labelOf(test)}: ${test.review}`])),
    ],
    risk: riskWords(change.risk),
    tests: ordered,
    onlyOnce: change.tests.filter((test) => !isComparable(test)).map((test) => `${labelOf(test)}: ${test.because}`),
    moves: movesInWords(change.plan),
    plan: planViews(change.plan),
    howToRead: HOW_TO_READ,
    chance: change.chance,
    notes: change.notes,
    sources: citations.list(),
    made: `${change.tool.name} ${change.tool.version}, evidence ${change.evidence.version} (${change.evidence.digest.slice(0, 12)})${folders}`,
  };
}

/** Everything said of one test, line by line, for formats without labels. */
export function detailLines(test: ChangeTestView): string[] {
  const cited = ({ text, mark }: Cited): string => withMark(text, mark);
  return [
    test.because,
    cited(test.matters),
    ...(test.standing === null ? [] : [test.standing]),
    ...test.crossed.map(cited),
    ...(test.crossedOther === null ? [] : [test.crossedOther]),
    ...(test.dates.length > 2 ? [test.dates.map(({ date, result }) => `${date} ${result}`).join('; ')] : []),
    ...test.visits,
    ...(test.error === null ? [] : [cited(test.error)]),
    ...test.otherErrors.map((error) => `published also: ${cited(error)}`),
    ...(test.sameErrors === null ? [] : [test.sameErrors]),
    ...(test.disputed === null ? [] : [test.disputed]),
    ...test.notes,
  ];
}
