/** Assessment, session and evidence -> the page for the client in words. Pure. */
import type { Assessment, PlannedExercise } from '../../assessment.ts';
import { evaluate, type Facts } from '../../evidence/condition.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { HandoutSection, Language } from '../../evidence/schema/handout.ts';
import { rawFactsOf } from '../../facts.ts';
import { cautionsFor } from '../../plan/plan.ts';
import { planWeek } from '../../plan/week.ts';
import type { Session } from '../../session.ts';
import { changeSection } from './change.ts';
import type { HandoutExercise, HandoutGroup, HandoutSectionView, HandoutView, TickRow } from './types.ts';
import { doseWords, filled, sentencesOf, type WordsAtLevel, wordsAtLevel } from './words.ts';

export interface HandoutInput {
  readonly assessment: Assessment;
  readonly session: Session;
  readonly evidence: Evidence;
  readonly language: Language;
  /** Ids of the exercises to print, in the order of a session; those that go home where absent. */
  readonly exercises?: readonly string[] | undefined;
  readonly emergencyNumber?: string | undefined;
  readonly letterhead?: readonly string[] | undefined;
}

/** One exercise with everything that is known of it here. */
export interface Chosen {
  readonly number: number;
  readonly planned: PlannedExercise;
  readonly words: WordsAtLevel;
}

type Place = HandoutSection['place'];

function sectionsAt(place: Place, input: HandoutInput, facts: Facts, number: string): HandoutSectionView[] {
  return input.evidence.handout.sections
    .filter((section) => section.place === place)
    .map((section) => {
      const words = input.language.sections[section.id];
      const lines = section.lines.filter((line) => line.when === undefined || evaluate(line.when, facts) === 'yes');
      return {
        title: words?.title ?? section.id,
        lines: lines.flatMap((line) => words?.lines[line.id] ?? []).map((line) => filled(line, { number })),
      };
    })
    .filter((section) => section.lines.length > 0);
}

/** What the page says once for all is not said again beside an exercise, sentence by sentence. */
const notSaidYet = (lines: readonly string[], said: readonly string[]): string[] =>
  [...new Set(lines.flatMap(sentencesOf))].filter((sentence) => !said.some((other) => other.includes(sentence)));

/** Lines that several exercises share, said once for all of them. */
function sharedLines(all: readonly (readonly string[])[]): string[] {
  const counts = new Map<string, number>();
  for (const lines of all) for (const line of new Set(lines)) counts.set(line, (counts.get(line) ?? 0) + 1);
  return [...counts].filter(([, count]) => count > 2).map(([line]) => line);
}

function chosenOf(input: HandoutInput): Chosen[] {
  const { assessment, evidence, language, exercises } = input;
  return assessment.plan
    .filter((planned) => !planned.held && (exercises === undefined ? planned.goes_home : exercises.includes(planned.exercise)))
    .flatMap((planned) => {
      const exercise = evidence.exercises.find(({ id }) => id === planned.exercise);
      return exercise === undefined ? [] : [{ planned, words: wordsAtLevel(exercise, planned.start.level, language) }];
    })
    .map((each, index) => ({ number: index + 1, ...each }));
}

interface Around {
  readonly said: readonly string[];
  readonly sameForAll: boolean;
}

function careOf({ planned, words }: Chosen, { evidence }: HandoutInput, facts: Facts): string[] {
  const exercise = evidence.exercises.find(({ id }) => id === planned.exercise);
  const cautions = exercise === undefined ? [] : cautionsFor(exercise, facts).flatMap((index) => words.cautions[index] ?? []);
  // a seated variant has its own steps; what to avoid in standing is not about it
  return planned.start.level === 0 ? [] : [...words.avoid, ...cautions];
}

function exerciseView(chosen: Chosen, input: HandoutInput, care: readonly string[], around: Around): HandoutExercise[] {
  const { planned, words, number } = chosen;
  const exercise = input.evidence.exercises.find(({ id }) => id === planned.exercise);
  if (exercise === undefined) return [];
  return [
    {
      number,
      name: words.name,
      rung: words.rung,
      exercise,
      level: planned.start.level,
      drawing: words.rung === null ? words.name : `${words.name}: ${words.rung}`,
      setUp: words.setUp === null ? null : notSaidYet([words.setUp], around.said).join(' '),
      steps: words.steps,
      howMany: doseWords(planned, input.language),
      care: notSaidYet(care, [...around.said, ...words.steps]),
      withWhom: around.sameForAll ? null : supervisionWords(planned, input.language),
    },
  ];
}

function supervisionWords({ supervision }: PlannedExercise, { supervision: words }: Language): string {
  const entries: Readonly<Record<string, string>> = words;
  return entries[supervision] ?? supervision;
}

function groupsOf(
  all: readonly { readonly chosen: Chosen; readonly views: HandoutExercise[] }[],
  language: Language,
): HandoutGroup[] {
  const titles: Readonly<Record<string, string>> = language.purposes;
  const purposes = [...new Set(all.map(({ chosen }) => chosen.planned.purpose))];
  return purposes.map((purpose) => ({
    title: titles[purpose] ?? purpose,
    exercises: all.filter(({ chosen }) => chosen.planned.purpose === purpose).flatMap(({ views }) => views),
  }));
}

/** `2026-05-11` as people write it. */
function dateInWords(iso: string, language: string): string {
  return new Intl.DateTimeFormat(language === 'en' ? 'en-GB' : language, { dateStyle: 'long', timeZone: 'UTC' }).format(
    new Date(`${iso}T00:00:00Z`),
  );
}

/** The page in words. Held exercises are never on it. */
export function handoutView(input: HandoutInput): HandoutView {
  const { assessment, session, evidence, language } = input;
  const { words } = language;
  const facts = rawFactsOf(session, evidence);
  const number = input.emergencyNumber ?? words.number_unknown;
  const chosen = chosenOf(input);
  const week = planWeek(
    chosen.map(({ planned }) => planned),
    evidence.dose.week,
    session.planWishes,
  );
  const daysOf = (exercise: string): readonly number[] =>
    (week?.days ?? []).filter((day) => day.exercises.some((each) => each.exercise === exercise)).map(({ day }) => day);
  const [before, after] = [
    sectionsAt('before_exercises', input, facts, number),
    sectionsAt('after_exercises', input, facts, number),
  ];
  const cares = chosen.map((each) => careOf(each, input, facts));
  const shared = notSaidYet(
    sharedLines(cares),
    before.flatMap(({ lines }) => lines),
  );
  const sameForAll = new Set(chosen.map(({ planned }) => planned.supervision)).size === 1;
  const around: Around = { said: [...before.flatMap(({ lines }) => lines), ...shared], sameForAll };
  const all = chosen.map((each, index) => ({ chosen: each, views: exerciseView(each, input, cares[index] ?? [], around) }));
  const longest = Math.max(0, ...(week?.days ?? []).map((day) => day.minutes));
  const rows: TickRow[] = chosen.map(({ number: place, words: { name }, planned }) => ({
    number: place,
    name,
    days: language.days.map((_, index) => daysOf(planned.exercise).includes(index + 1)),
  }));
  const dayNames = (week?.days ?? []).flatMap(({ day }) => language.days[day - 1] ?? []);
  const first = chosen[0];
  return {
    language: language.language,
    direction: language.direction,
    letterhead: input.letterhead ?? [],
    title: words.title,
    forClient: filled(words.for_client, { ref: assessment.client.ref }),
    date: filled(words.date, { date: dateInWords(assessment.assessed, language.language) }),
    stop: sectionsAt('stop_box', input, facts, number),
    call: filled(words.call, { number }),
    phone: words.therapist_phone,
    before: shared.length === 0 ? before : [...before, { title: words.everyone, lines: shared }],
    withWhom: sameForAll && first !== undefined ? supervisionWords(first.planned, language) : null,
    week: [
      filled(words.week_days, { days: dayNames.join(', ') }),
      ...(longest > 0 ? [filled(words.week_minutes, { minutes: longest })] : []),
    ],
    groups: groupsOf(all, language),
    change: changeSection(chosen, language),
    after,
    tick: {
      title: words.tick_title,
      intro: words.tick_intro,
      weeks: [words.week_one, words.week_two],
      exercise: words.exercise,
      days: language.days,
      rows,
    },
    labels: {
      exercises: words.exercises,
      howMany: words.how_many,
      takeCare: words.take_care,
      tried: words.tried_with_me,
      writtenBy: words.written_by,
      registration: words.registration,
    },
  };
}
