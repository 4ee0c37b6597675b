/**
 * The letter, composed from the assessment: requests and actions first, then what we do, then the results, since the first
 * third of a letter is what gets read. No cause, no prediction, no advice to start or stop a medicine.
 */
import type { Assessment, TestResult } from '../../assessment.ts';
import { dateWords } from '../view/numbers.ts';
import { sanitised, sanitisedDeep } from '../view/sanitise.ts';
import { listed } from '../view/sentences.ts';
import { countingMarks, isNotTested, primaryOf } from '../view/standing.ts';
import { boundsWords, purposeWords } from '../view/words.ts';
import { factsOf } from './facts.ts';
import { openFlags, requestsOf, reviewDay, urgencyOf } from './requests.ts';
import type { Letter, LetterResult, People, Receiver } from './types.ts';
import { authorAndYear, looksAt, markInShort, resultInWords, sentence, standingInShort, withoutLongDecimals } from './words.ts';

export interface LetterInput {
  readonly assessment: Assessment;
  readonly people: People;
  readonly letterhead: readonly string[];
  readonly receiver: Receiver;
  /** ISO date of the letter. */
  readonly written: string;
}

const MOST_RESULTS = 8;

/** What decided the level: answers that were yes, else the last step of the path. */
function reasonOf({ risk }: Assessment): string {
  const reached = risk.steps.filter((step) => step.reached === 'yes' && step.answer !== 'unknown');
  const yes = reached.filter((step) => step.answer === 'yes').map((step) => step.because);
  const last = reached.at(-1)?.because ?? '';
  return withoutLongDecimals([...new Set([...yes, last])].filter((part) => part !== '').join('; '));
}

function summaryOf(assessment: Assessment): string {
  const { risk } = assessment;
  const own = risk.caveats.filter((caveat) => caveat.basis === 'own-rule').map((caveat) => sentence(caveat.text));
  if (risk.override !== null)
    return sentence(`${risk.override.label}, my own judgement: ${risk.override.reason}. The ${risk.name} give: ${risk.label}`);
  if (risk.level === 'undetermined')
    return `Fall risk by the ${risk.name} ${boundsWords(risk.at_least, risk.at_most)}. Still needed: ${risk.missing.map((item) => item.question).join(' ')}`;
  return [sentence(`${risk.label} of falls by the ${risk.name}: ${reasonOf(assessment)}`), ...own].join(' ');
}

/** Both sides of a test share a row. */
function resultRow(sides: readonly TestResult[], sources: Assessment['sources']): LetterResult | null {
  const [first] = sides;
  if (first === undefined) return null;
  const said = (words: (test: TestResult) => string): string => {
    const all = sides.map((test) => ({ side: test.side, text: words(test) }));
    return new Set(all.map((each) => each.text)).size === 1
      ? (all[0]?.text ?? '')
      : all.map((each) => (each.side === null ? each.text : `${each.side} ${each.text}`)).join('; ');
  };
  const aid = sides.flatMap((test) => test.notes).find((note) => /^done with an aid/.test(note));
  const how = aid === undefined ? '' : `, ${/\(([^)]*)\)/.exec(aid)?.[1] ?? 'with an aid'}`;
  return {
    test: first.name,
    about: looksAt(first.test),
    result: `${said(resultInWords)}${how}`,
    forAgeAndSex: said(standingInShort),
    falls: said((test) => markInShort(test, sources)),
  };
}

/** Those in the range linked with falls first, then those with a norm, then in the order of the visit. */
function resultsOf({ tests, sources }: Assessment): { shown: LetterResult[]; left: number } {
  const done = tests.filter((test) => !isNotTested(test));
  const ids = [...new Set(done.map((test) => test.test))];
  const weight = (id: string): number => {
    const sides = done.filter((test) => test.test === id);
    if (sides.some((test) => countingMarks(test).some((cut) => cut.met === true))) return 2;
    return Number(sides.some((test) => primaryOf(test) !== null));
  };
  const sorted = [...ids].sort((a, b) => weight(b) - weight(a));
  const rows = sorted.flatMap(
    (id) =>
      resultRow(
        done.filter((test) => test.test === id),
        sources,
      ) ?? [],
  );
  return { shown: rows.slice(0, MOST_RESULTS), left: Math.max(0, rows.length - MOST_RESULTS) };
}

function notDoneOf({ tests, risk }: Assessment): string {
  const left = tests
    .filter(isNotTested)
    .map((test) => `${test.name.toLowerCase()}${test.side === null ? '' : ` ${test.side}`} (${test.reason ?? test.outcome})`);
  const asked = risk.not_asked.length === 0 ? [] : [`Not asked today, so not ruled out: ${risk.not_asked.join('; ')}.`];
  return [...(left.length === 0 ? [] : [`Not tested: ${left.join('; ')}.`]), ...asked].join(' ');
}

const COMPANY: Readonly<Record<string, string>> = {
  someone_nearby: 'with somebody nearby',
  someone_beside: 'with somebody beside the client',
  professional: 'with me present',
};

/** The programme in two sentences; nothing while a red flag is open. */
function doingOf(assessment: Assessment): string[] {
  if (openFlags(assessment).length > 0) return ['No exercise is started until you have seen the client.'];
  const home = assessment.plan.filter((exercise) => exercise.goes_home && !exercise.held);
  if (home.length === 0) return ['No exercise programme has been agreed yet.'];
  const purposes = [...new Set(home.map((exercise) => purposeWords(exercise.purpose).toLowerCase()))];
  const company = [...new Set(home.map((exercise) => exercise.supervision))];
  const days = assessment.week?.days ?? [];
  const minutes = Math.max(0, ...days.map((day) => day.minutes));
  const dose = days.length === 0 ? '' : `, on ${days.length} days a week, up to ${minutes} minutes a day`;
  const who = company.length === 1 ? COMPANY[company[0] ?? ''] : undefined;
  return [
    `We plan ${home.length} exercises (${listed(purposes)})${dose}${who === undefined ? '' : `, ${who}`}, each at a level chosen from today's results.`,
  ];
}

function sourcesOf({ tests, sources }: Assessment): string {
  const ids = tests.filter((test) => !isNotTested(test)).flatMap((test) => primaryOf(test)?.source ?? []);
  const names = [...new Set(ids.map((id) => authorAndYear(id, sources)))];
  return names.length === 0
    ? ''
    : `Compared with published tables: ${names.join(', ')}. Rows, formulas and full sources on request.`;
}

function subjectOf({ assessment, people }: LetterInput): string {
  const { client, assessed } = assessment;
  const who = people.client.name === null ? `client ${client.ref}` : `${people.client.name} (our reference ${client.ref})`;
  const born = people.client.born === null ? `${client.age} years` : `born ${dateWords(people.client.born)}`;
  const address = people.client.address.length === 0 ? '' : `, ${people.client.address.join(', ')}`;
  return `Re: ${who}, ${client.sex === 'not recorded' ? '' : `${client.sex}, `}${born}${address}. Seen on ${dateWords(assessed)} for balance and falls.`;
}

const CONSENT = {
  yes: 'The client agrees that this is shared with you.',
  no: 'The client does not agree that this is shared.',
  unknown: 'Whether the client agrees to this being shared is not recorded.',
} as const;

function wishesOf({ goals, consent_to_share: consent }: Assessment): string[] {
  return [...(goals.length === 0 ? [] : [`The client wants: ${goals.join('; ')}.`]), CONSENT[consent ?? 'unknown']];
}

function nextOf(assessment: Assessment): string[] {
  const day = reviewDay(assessment);
  return [
    ...(day === null ? [] : [`We review by ${day}, sooner after any fall.`]),
    'We will write again if a result worsens beyond measurement error, or if a new finding needs you.',
  ];
}

/** The record for the client's own file: no request, and what we do ourselves about every factor. */
function ownTasks({ risk }: Assessment): string[] {
  return risk.factors.map((factor) => `${factor.name} (${withoutLongDecimals(factor.found)}): ${factor.usual_action}`);
}

/** The falls of the year, unless the reason said them already. */
const withFalls = (summary: string, falls: string): string =>
  summary.toLowerCase().includes(falls.toLowerCase().replace(/\.$/, '')) ? summary : `${summary} ${falls}`;

export function letterOf(given: LetterInput): Letter {
  const input: LetterInput = { ...sanitisedDeep(given), assessment: sanitised(given.assessment) };
  const { assessment, people, receiver, letterhead } = input;
  const { shown, left } = requestsOf(assessment, reasonOf(assessment));
  const results = resultsOf(assessment);
  const [falls = '', ...others] = factsOf(assessment);
  const forFile = receiver === 'client-file';
  const name = people.to.name;
  const from = people.from;
  return {
    letterhead,
    date: dateWords(input.written),
    to: forFile
      ? ["For the client's file"]
      : [name ?? (receiver === 'gp' ? 'To the family doctor' : 'To the specialist'), ...people.to.address],
    salutation: forFile ? '' : `Dear ${name ?? 'colleague'},`,
    subject: subjectOf(input),
    summary: withFalls(summaryOf(assessment), falls),
    urgency: forFile ? 'Record' : urgencyOf(shown),
    requests: shown,
    noRequest: forFile ? 'Nothing was asked of a doctor.' : 'No action is needed from you.',
    doing: [...doingOf(assessment), ...(forFile ? ownTasks(assessment) : [])],
    results: results.shown,
    resultsNote: [
      results.left === 0 ? '' : `${results.left} more stand in the report.`,
      left === 0 ? '' : `${left} further requests stand in the report.`,
    ]
      .filter((part) => part !== '')
      .join(' '),
    facts: others,
    notDone: notDoneOf(assessment),
    wishes: wishesOf(assessment),
    next: nextOf(assessment),
    closing: forFile ? '' : 'Thank you for your help. Yours sincerely,',
    signature: [
      from.name ?? assessment.assessor ?? '(name)',
      ...[from.role, from.registration, from.telephone].filter((part) => part !== null),
    ],
    copies: people.copies.length === 0 ? '' : `Copies: ${people.copies.join('; ')}`,
    sources: sourcesOf(assessment),
  };
}
