/** One paragraph for a letter: what changed beyond error, what asks for a second look, what may be chance. No false precision. */
import type { Change, LevelSet, TestChange } from '../../change/types.ts';
import { dateWords, roundFor, unitWords } from '../view/numbers.ts';
import { sanitisedDeep } from '../view/sanitise.ts';
import { listed } from '../view/sentences.ts';
import { withLevelSet } from './risk.ts';
import { inSentence, labelOf, resultWords } from './words.ts';

/** As a clinician would say it: hundredths for walking speeds, tenths for the rest. */
const rounded = (value: number, unit: string): number => roundFor(value, unit === 'm/s' ? 2 : 1);
const withUnit = (value: number, unit: string): string => `${rounded(value, unit)} ${unitWords(unit, value)}`.trim();

/** "timed up and go from 12.8 to 11.4 s"; anything but two plain numbers in full. */
function both(test: TestChange): string {
  const { before_result: first, after_result: last, unit } = test;
  const name = inSentence(labelOf(test));
  if (first.value === null || last.value === null || first.at_least || last.at_least)
    return `${name} from ${resultWords(first, unit)} to ${resultWords(last, unit)}`;
  if (first.value === last.value) return `${name} ${withUnit(last.value, unit)} both times`;
  return `${name} from ${rounded(first.value, unit)} to ${withUnit(last.value, unit)}`;
}

/** "Donoghue 2019": enough to find the paper in the report. */
function shortCitation(id: string, sources: Change['sources']): string {
  const citation = sources[id]?.citation ?? id;
  const author = /^[\p{L}'-]+/u.exec(citation)?.[0] ?? id;
  const year = /\b(?:19|20)\d{2}\b/.exec(citation)?.[0];
  return year === undefined ? author : `${author} ${year}`;
}

/** The error band and where it comes from stand beside every number that is called real or not. */
function errorWords(test: TestChange, sources: Change['sources']): string {
  if (test.error === null) return '';
  const disputed = test.disputed ? '; published figures disagree' : '';
  return ` (smallest real change ${withUnit(test.error.mdc95, test.unit)}, ${shortCitation(test.error.source, sources)}${disputed})`;
}

function sentence(tests: readonly TestChange[], start: string, sources: Change['sources']): string[] {
  return tests.length === 0 ? [] : [`${start} ${listed(tests.map((test) => `${both(test)}${errorWords(test, sources)}`))}.`];
}

function riskSentence({ risk, from }: Change): string {
  const words = (level: string, label: string, set: LevelSet | null): string =>
    withLevelSet(level === 'undetermined' ? 'not settled' : label.toLowerCase(), set);
  const before = words(risk.before, risk.before_label, risk.before_override);
  const after = words(risk.after, risk.after_label, risk.after_override);
  const then = before === after ? `as on ${dateWords(from)}` : `on ${dateWords(from)} it was: ${before}`;
  return `Fall risk by the ${risk.pathway}: ${after}; ${then}. Falls: ${risk.falls}.`;
}

/** Plain text, one paragraph ending with a line feed. */
export function renderChangeLetter(given: Change): string {
  const change = sanitisedDeep(given);
  const by = (verdict: TestChange['verdict']): TestChange[] =>
    change.tests.filter((test) => test.verdict === verdict && test.direction !== null);
  const review = change.tests.filter((test) => test.review !== null);
  const [worse, better, within, unclear] = [by('worsened'), by('improved'), by('within_error'), by('cannot_tell')];
  const opening = `Between ${dateWords(change.from)} and ${dateWords(change.to)}`;
  const none = worse.length + better.length === 0;
  const parts = [
    none
      ? `${opening} no result changed by more than measurement error.`
      : `${opening} the following changed by more than measurement error.`,
    ...sentence(worse, 'Worse:', change.sources),
    ...sentence(better, 'Better:', change.sources),
    ...sentence(within, 'Within measurement error, so possibly chance:', change.sources),
    ...(unclear.length === 0 ? [] : [`No judgement is possible on ${listed(unclear.map(both))}.`]),
    ...(review.length === 0
      ? []
      : [`Please note: ${review.map((test) => `${inSentence(labelOf(test))}, ${test.review}`).join('; ')}.`]),
    riskSentence(change),
  ];
  return `${parts.join(' ')}\n`;
}
