/** From an assessment to the short report: the same words as in the full one, less of them. */
import type { Assessment, PlannedExercise } from '../../assessment.ts';
import { briefTest, commonMisfits } from './brief-tests.ts';
import type { BriefExercise, BriefGroup, BriefView } from './brief-types.ts';
import { factorViews, headView, madeWords } from './build.ts';
import { type Citations, numberedCitations, type SourceView, withMark } from './citations.ts';
import { planView } from './plan.ts';
import { otherInShort, riskView } from './risk.ts';
import { sanitised } from './sanitise.ts';
import { capitalised, withStop } from './sentences.ts';
import type { ExerciseView, FactorGroupView } from './types.ts';
import { SHORT_STATUS_LEGEND } from './words.ts';

const MOST_CAVEATS = 3;

/** Own caveats and those about this client are never left out: one may be what stands between a low level and false comfort. */
function shortened(assessment: Assessment): Assessment {
  const { risk } = assessment;
  const own = risk.caveats.filter((caveat) => caveat.basis === 'own-rule' || caveat.specific === true);
  const others = risk.caveats.filter((caveat) => !own.includes(caveat)).slice(0, Math.max(0, MOST_CAVEATS - own.length));
  return {
    ...assessment,
    risk: { ...risk, caveats: risk.caveats.filter((caveat) => own.includes(caveat) || others.includes(caveat)) },
    plan: assessment.plan.map(withoutLaterSteps),
  };
}

/** A cap above the start concerns later steps, and what would lift a limit concerns a later visit: both stand in the full report. */
const LATER = /^not beyond "([^"]*)"/;
const LIFTS = /; lifts when .*$/s;

function withoutLaterSteps(exercise: PlannedExercise): PlannedExercise {
  const limits = exercise.limited_by
    .filter((line) => (LATER.exec(line)?.[1] ?? exercise.start.name) === exercise.start.name)
    .map((line) => line.replace(LIFTS, ''));
  return { ...exercise, because: [], move_up: '', move_down: '', basis: [], limited_by: limits };
}

const ALONE = 'may be done alone';

function exerciseOf(exercise: ExerciseView): BriefExercise {
  const company = exercise.supervision === null || exercise.supervision === ALONE ? [] : [exercise.supervision];
  const detail = [
    exercise.dose,
    ...exercise.limitedBy.map((limit) => limit.replace(': see ', ': ')),
    ...company,
    ...exercise.cautions,
  ];
  return {
    name: `${exercise.name}, ${exercise.level}`,
    held: exercise.held,
    start: exercise.held ? '' : exercise.start.replace(/, firm floor/, '').replace(/, eyes open$/, ''),
    detail: detail
      .filter((part) => part !== '')
      .map((part) => withStop(capitalised(part)))
      .join(' '),
  };
}

const factorLines = (group: FactorGroupView): { heading: string; lines: string[] } => ({
  heading: group.heading,
  lines: group.factors.map(
    (factor) => `${factor.name}: ${withMark(factor.text.split('; ')[0] ?? '', factor.mark)}. ${factor.action}`,
  ),
});

const CLIP = 48;

/** Cut at a word. */
function clipped(text: string): string {
  const whole = text.replace(/[\s.]+$/, '');
  if (whole.length <= CLIP) return whole;
  return `${whole.slice(0, whole.lastIndexOf(' ', CLIP)).replace(/[,;:.]$/, '')} …`;
}

/** An author as bibliographies print one: "van de Loo B", "Kon SSC". */
const AUTHOR = /^\p{L}[\p{L}' -]* \p{Lu}{1,4}$/u;

/** "Pondal M 2008": enough to find it; the whole citation stands in the full report. */
export function shortSource({ citation }: SourceView): string {
  const year = /\b(?:19|20)\d\d\b/.exec(citation)?.[0];
  const author = (citation.split('. ')[0] ?? '').split(', ')[0]?.replace(/ et al$/, '') ?? '';
  if (!AUTHOR.test(author)) return clipped(citation);
  return year === undefined ? author : `${author} ${year}`;
}

function notAskedWords(points: readonly string[]): string | null {
  if (points.length === 0) return null;
  return `${capitalised(points.join('; '))}. Not ruled out: each would be a reason to see a doctor first.`;
}

/** What to look for; what to do then stands in the full report. */
function stopWords(signs: Assessment['stop_signs'], citations: Citations): string {
  const marks = [...new Set(signs.map((sign) => citations.mark(sign)))].join('');
  return withMark(signs.map((sign) => sign.text.split(': ')[0] ?? '').join('; '), marks);
}

/** Order, rounding and words of the short report. */
export function briefViewOf(given: Assessment): BriefView {
  const assessment = shortened(sanitised(given));
  const { risk, tests } = assessment;
  const citations: Citations = numberedCitations(assessment.sources, { short: true });
  const head = headView(assessment, citations);
  const riskWords = riskView(assessment, citations);
  const seen = new Map(tests.map((test) => [test.test, new Set<string>()]));
  const common = commonMisfits(tests);
  const testWords = tests.map((test) => briefTest(test, { seen: seen.get(test.test) ?? new Set(), common }, citations));
  const plan = planView(assessment.plan, citations);
  const groups: BriefGroup[] = plan.groups.map(({ purpose, exercises }) => ({ purpose, exercises: exercises.map(exerciseOf) }));
  const factors = factorViews(risk.factors, citations).map(factorLines);
  const joined = (cautions: Assessment['cautions']): string =>
    cautions.map((caution) => withMark(caution.text, citations.mark(caution))).join(' ');
  const specific = assessment.cautions.filter((caution) => caution.specific === true);
  const judgement = assessment.cautions.filter((caution) => caution.specific !== true && caution.source === null);
  return {
    ...head,
    risk: { ...riskWords, others: risk.other_pathways.map(otherInShort) },
    check: assessment.notes,
    tests: testWords,
    shared: plan.shared,
    groups,
    factors,
    notAsked: notAskedWords(risk.not_asked),
    misfits: common,
    judgement: joined(judgement),
    cautions: joined(specific),
    furtherCautions: assessment.cautions.length - judgement.length - specific.length,
    stopSigns: stopWords(assessment.stop_signs, citations),
    sources: citations.list().map((source) => ({ number: source.number, text: shortSource(source) })),
    legend: SHORT_STATUS_LEGEND,
    made: madeWords(assessment),
  };
}
