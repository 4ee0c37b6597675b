/** The words of a letter: what a test looks at, numbers as a clinician would say them, sources by author and year. */
import type { Assessment, TestResult } from '../../assessment.ts';
import { roundFor, unitWords } from '../view/numbers.ts';
import { capitalised, withStop } from '../view/sentences.ts';
import { countingMarks, isNotTested, isUnable, primaryOf } from '../view/standing.ts';
import { peersWords, plainId, STANDING_WORDS } from '../view/words.ts';

/** A word on what each test looks at, since a doctor need not know its name. */
const LOOKS_AT: Readonly<Record<string, string>> = {
  timed_up_and_go: 'rising, walking, turning',
  timed_up_and_go_cognitive: 'the same with a mental task',
  timed_up_and_go_manual: 'the same while carrying',
  gait_speed_usual: 'walking',
  gait_speed_fast: 'fast walking',
  five_times_sit_to_stand: 'leg strength',
  thirty_second_chair_stand: 'leg strength',
  one_minute_sit_to_stand: 'leg strength and endurance',
  single_leg_stance_eyes_open: 'balance',
  single_leg_stance_eyes_closed: 'balance without sight',
  side_by_side_stance: 'balance',
  semi_tandem_stance: 'balance',
  tandem_stance: 'balance',
  functional_reach: 'balance while reaching',
  step_test: 'stepping',
  four_square_step: 'stepping in all directions',
  heel_raise: 'calf strength',
  grip_strength: 'strength',
  balance_confidence: 'confidence in own balance',
  falls_efficacy_short: 'concern about falling',
  berg_balance: 'balance in daily tasks',
  mini_bestest: 'balance and walking',
  four_stage_balance: 'balance',
  short_physical_performance_battery: 'legs and balance together',
  dual_task_cost: 'doing two things at once',
};
export const looksAt = (test: string): string => LOOKS_AT[test] ?? '';

/** Hundredths of a metre a second, tenths of the rest: no more than anybody can time. */
function roundedValue(test: Pick<TestResult, 'unit' | 'at_least'>, value: number): string {
  const rounded = roundFor(value, test.unit === 'm/s' ? 2 : 1);
  return `${test.at_least ? 'at least ' : ''}${rounded} ${unitWords(test.unit, rounded)}`.trim();
}

/** Long decimals inside a sentence, such as a speed worked out from time and distance. */
export const withoutLongDecimals = (text: string): string =>
  text.replace(/\d+\.\d{3,}/g, (number) => String(roundFor(Number(number), 2)));

export function resultInWords(test: TestResult): string {
  if (isNotTested(test)) return test.outcome === 'declined' ? 'declined' : 'not tested';
  if (isUnable(test)) return test.outcome === 'unable' ? 'unable' : 'stopped, balance lost';
  if (test.value === null) return 'no result';
  return roundedValue(test, test.value);
}

/** "below usual for age and sex"; "usual" is never "normal". */
export function standingInShort(test: TestResult): string {
  if (isNotTested(test)) return 'nothing known';
  const primary = primaryOf(test);
  if (primary === null) return isUnable(test) ? 'unable, the worst result' : 'no published norm fits';
  const peers = peersWords(primary.band);
  if (primary.standing !== null) return `${STANDING_WORDS[primary.standing]} for ${peers}`;
  if (primary.against_mean !== null)
    return `${primary.against_mean === 'worse' ? 'worse' : 'not worse'} than the average for ${peers}`;
  return isUnable(test) ? 'unable, the worst result' : 'the table cannot say';
}

/** "Barry 2014": enough to find the paper in the report. */
export function authorAndYear(id: string, sources: Assessment['sources']): string {
  const citation = sources[id]?.citation ?? plainId(id);
  const year = /\b(?:19|20)\d{2}\b/.exec(citation)?.[0];
  if (/^Centers for Disease Control/.test(citation)) return `CDC ${year ?? ''}`.trim();
  const first = (citation.split('. ')[0] ?? citation).split(', ')[0] ?? citation;
  // "van de Loo B" -> "van de Loo"; a body keeps its whole name.
  const author = first.replace(/ et al$/, '').replace(/ \p{Lu}{1,4}$/u, '');
  return year === undefined || author.includes(year) ? author : `${author} ${year}`;
}

/** One published mark that counts: met before near before not met. */
export function markInShort(test: TestResult, sources: Assessment['sources']): string {
  if (isNotTested(test)) return '';
  const cuts = countingMarks(test);
  const named = (cut: (typeof cuts)[number]): string => `${cut.rule} (${authorAndYear(cut.source, sources)})`;
  const met = cuts.find((cut) => cut.met === true && cut.near !== true) ?? cuts.find((cut) => cut.met === true);
  if (met !== undefined) return `meets ${named(met)}${met.near === true ? ', within measurement error' : ''}`;
  const open = cuts.find((cut) => cut.met === null || cut.near === true);
  if (open !== undefined) return `${open.met === null ? 'cannot say:' : 'close to'} ${named(open)}`;
  return cuts.length === 0 ? 'no mark' : 'no mark met';
}

export const sentence = (text: string): string => withStop(capitalised(text.trim()));
