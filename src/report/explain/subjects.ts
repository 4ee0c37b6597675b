/** What can be explained, and the lines of each: the statement, the row, the arithmetic, the source, what would change it. */
import type {
  Based,
  Comparison,
  CutPointResult,
  FactorResult,
  PlannedExercise,
  RedFlagResult,
  TestResult,
} from '../../assessment.ts';
import { rowUsed, valueAtPercentile } from '../../scoring/value-at-percentile.ts';
import { exactPercentile, roundFor, valueWithUnit } from '../view/numbers.ts';
import { countingMarks, primaryOf, standingWords } from '../view/standing.ts';
import { labelOf, resultWords } from '../view/tests.ts';
import { boundsWords, statusWords, supervisionWords } from '../view/words.ts';
import { type Explained, whatIf } from './what-if.ts';

export type Line = readonly [label: string, text: string];

export interface Explanation {
  /** What is typed to get it. */
  readonly key: string;
  readonly title: string;
  readonly lines: () => readonly Line[];
}

function sourceLine(based: Based, { assessment }: Explained): Line[] {
  if (based.source === null)
    return [['Source', `${statusWords(based.basis) ?? ''}${based.location === null ? '' : `: ${based.location}`}`]];
  const cited = assessment.sources[based.source];
  const doi = cited?.doi === null || cited === undefined ? '' : ` doi:${cited.doi}`;
  const where = based.location === null ? '' : `, ${based.location}`;
  const status = statusWords(based.basis);
  return [['Source', `${based.source}${where}${status === null ? '' : ` (${status})`}. ${cited?.citation ?? ''}${doi}`]];
}

const ofTable = (each: Comparison | CutPointResult): Based => ({
  source: each.source,
  basis: each.status,
  location: each.location,
});

/** The raw values at which the standing would change, by the row used. */
function turningPoints(test: TestResult, primary: Comparison, explained: Explained): string[] {
  const { evidence, session } = explained;
  const definition = evidence.testById.get(test.test);
  const used = rowUsed(evidence, test.test, primary);
  if (definition === undefined || used === null || primary.percentile === null) return [];
  const { well_below_under: tail, below_under: lower, above_over: upper } = evidence.defaults.standing;
  return [
    [tail, 'below, not well below, starts'],
    [lower, 'usual starts'],
    [upper, 'better than usual starts'],
  ].flatMap(([percentile, words]) => {
    const value = valueAtPercentile(used, Number(percentile), { test: definition, client: session.client });
    return value === null ? [] : [`${words} at ${valueWithUnit(value, test.unit)} (percentile ${percentile})`];
  });
}

function testLines(test: TestResult, explained: Explained): Line[] {
  const primary = primaryOf(test);
  const cuts = countingMarks(test);
  const error = test.measurement_error;
  const chosen: Line[] = test.selection === undefined ? [] : [['Table', test.selection.because]];
  const row: Line[] =
    primary === null
      ? [['Row', test.no_comparison_because ?? 'no table may place this client']]
      : [
          ['Row', `${primary.working.row} (${primary.population})`],
          ['Formula', primary.working.formula],
          ...[exactPercentile(primary), primary.z === null ? null : `z ${roundFor(primary.z, 2)}`, primary.no_standing_because]
            .filter((part) => part !== null)
            .map((part): Line => ['Gives', part]),
          ...primary.mismatches.map((text): Line => ['Fit', text]),
          ...sourceLine(ofTable(primary), explained),
          ...turningPoints(test, primary, explained).map((text): Line => ['Would change', text]),
        ];
  return [
    ['Statement', `${labelOf(test)} ${resultWords(test)}: ${standingWords(test)}`],
    ...chosen,
    ...row,
    ...(test.selection?.also_fit ?? []).map((each): Line => ['Also fits', `${each.source}, ${each.part}: ${each.because}`]),
    ...cuts.flatMap((cut): Line[] => [
      [
        'Mark',
        `"${cut.rule}" ${cut.met === null ? 'cannot be decided' : cut.met ? 'is met' : 'is not met'}${cut.near === true ? ', inside the measurement error' : ''}: ${cut.outcome}`,
      ],
      ...sourceLine(ofTable(cut), explained),
    ]),
    ...(error === null
      ? []
      : ([
          [
            'Error',
            `smallest real change ${error.mdc95 === null ? 'not published' : valueWithUnit(error.mdc95, test.unit)}${error.low === null || error.high === null ? '' : `; the true value probably lies between ${roundFor(error.low, 2)} and ${roundFor(error.high, 2)}`}`,
          ],
          ...sourceLine({ source: error.source, basis: error.status, location: error.location }, explained),
        ] satisfies Line[])),
    ...test.notes.map((text): Line => ['Note', text]),
  ];
}

function levelLines(explained: Explained): Line[] {
  const { risk } = explained.assessment;
  const level = risk.level === 'undetermined' ? boundsWords(risk.at_least, risk.at_most) : risk.label;
  const steps = risk.steps.flatMap((step, index): Line[] => [
    [
      `Step ${index + 1}`,
      `${step.question} ${step.reached === 'no' ? 'not reached' : `${step.answer.toUpperCase()}: ${step.because}`}`,
    ],
    ...(step.reached === 'no' ? [] : sourceLine(step, explained)),
  ]);
  const changes = whatIf(explained, ({ risk: then }) =>
    then.level === 'undetermined' ? boundsWords(then.at_least, then.at_most) : then.label,
  );
  return [
    ['Statement', `${risk.name}: ${level}`],
    ...steps,
    ...risk.caveats.map((caveat): Line => ['Note', caveat.text]),
    ...risk.missing.map((item): Line => ['Missing', item.question]),
    ...(changes.length === 0
      ? [['Would change', 'no single answer turned round; see the marks of the tests'] as const]
      : changes.map((text): Line => ['Would change', text])),
  ];
}

const startWords = ({ held, start }: PlannedExercise): string =>
  held ? 'held' : start.level === 0 ? 'seated variant' : `level ${start.level} of ${start.of}, ${start.name}`;

function exerciseLines(exercise: PlannedExercise, explained: Explained): Line[] {
  const changes = whatIf(explained, ({ plan }) => {
    const then = plan.find((each) => each.exercise === exercise.exercise);
    return then === undefined ? 'left out' : startWords(then);
  });
  const bases = new Map(exercise.basis.map((based) => [`${based.source} ${based.location}`, based]));
  return [
    ['Statement', `${exercise.name}: ${startWords(exercise)}`],
    ...exercise.because.map((text): Line => ['Because', text]),
    ...exercise.limited_by.map((text): Line => ['Limit', text]),
    ['Dose', exercise.dose],
    ['With', supervisionWords(exercise.supervision)],
    ['Up', exercise.move_up],
    ['Down', exercise.move_down],
    ...[...bases.values()].flatMap((based) => sourceLine(based, explained)),
    ...changes.map((text): Line => ['Would change', text]),
  ];
}

const flagLines = (flag: RedFlagResult, explained: Explained): Line[] => [
  ['Statement', flag.finding],
  ['Because', flag.because],
  ['Do', flag.action],
  ...(flag.spread === null ? [] : [['Limits', flag.spread] as const]),
  ...sourceLine(flag, explained),
  [
    'Would change',
    flag.cleared === null
      ? `a clearance in the file: clearance: {by: NAME, date: DAY, for: ${flag.id}}`
      : `cleared by ${flag.cleared.by}`,
  ],
];

const factorLines = (factor: FactorResult, explained: Explained): Line[] => [
  ['Statement', `${factor.name}: ${factor.found}`],
  ['Because', factor.why],
  ['Usually', `${factor.usual_action} (${factor.who})`],
  ...sourceLine(factor, explained),
];

/** Everything that `explain` knows of one visit, in the order of the report. */
export function explanationsOf(explained: Explained): Explanation[] {
  const { risk, tests, plan, sources } = explained.assessment;
  return [
    ...risk.red_flags.map((flag) => ({ key: flag.id, title: flag.finding, lines: () => flagLines(flag, explained) })),
    { key: 'level', title: `Level: ${risk.label}`, lines: () => levelLines(explained) },
    ...tests.map((test) => ({
      key: test.side === null ? test.test : `${test.test}.${test.side}`,
      title: labelOf(test),
      lines: () => testLines(test, explained),
    })),
    ...plan.map((exercise) => ({
      key: exercise.exercise,
      title: exercise.name,
      lines: () => exerciseLines(exercise, explained),
    })),
    ...risk.factors.map((factor) => ({ key: factor.id, title: factor.name, lines: () => factorLines(factor, explained) })),
    ...Object.entries(sources).map(([id, cited]) => ({
      key: id,
      title: cited.citation,
      lines: () => [...sourceLine({ source: id, basis: cited.status, location: cited.location }, explained)],
    })),
  ];
}
