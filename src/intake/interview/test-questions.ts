/** The questions about one test: its course, its sides, its results, where the watch was stopped. */
import type { TestDefinition } from '../../evidence/schema/catalogue.ts';
import { COURSE_KEYS, type Leaf, MEASURED_KEYS } from '../../session-keys.ts';
import { type Answers, keyOf, type Question } from './question.ts';

function plausible({ unusual, unit_text }: TestDefinition): string {
  const ends = [
    ...(unusual.below === undefined ? [] : [`${unusual.below}`]),
    ...(unusual.above === undefined ? [] : [`${unusual.above}`]),
  ];
  const unit = unit_text === '' ? 'points' : unit_text;
  return ends.length === 2
    ? `usually ${ends.join(' to ')} ${unit}`
    : `in ${unit}${unusual.above === undefined ? '' : `, seldom over ${unusual.above}`}`;
}

/** Whether a walk is entered as time and distance. */
const byTime = (test: TestDefinition, answers: Answers): boolean => (answers[`tests.${test.id}.distance`] ?? '') !== '';

function resultQuestion(test: TestDefinition, side: string | null, answers: Answers): Question {
  const timed = test.course && byTime(test, answers);
  const what = timed ? `time over ${answers[`tests.${test.id}.distance`]} m` : '';
  const range = timed ? 'in s' : plausible(test);
  return {
    id: `tests.${test.id}${side === null ? '' : `.${side}`}`,
    section: 'Tests',
    ask: [test.name, ...(what === '' ? [] : [what]), ...(side === null ? [] : [side])].join(', '),
    hint: `${range}; trials apart by blanks; or unable ..., declined ... with the reason`,
    form: { kind: 'result' },
    path: ['tests', test.id, ...(side === null ? [] : [side])],
    required: false,
    card: test.id,
    detail: test.protocol,
  };
}

function extraQuestion(test: TestDefinition, key: string, ask: string, hint: string, leaf: Leaf): Question {
  return {
    id: `tests.${test.id}.${key}`,
    section: 'Tests',
    ask: `${test.name}, ${ask}`,
    hint,
    form: { kind: 'leaf', leaf },
    path: ['tests', test.id, key],
    required: false,
    card: test.id,
  };
}

const measured = (answers: Answers, ...ids: string[]): boolean => ids.some((id) => /^\d/.test(answers[id] ?? ''));

/** Every question that this test and the answers so far call for. */
export function testQuestions(test: TestDefinition, answers: Answers): Question[] {
  const id = `tests.${test.id}`;
  if (test.course)
    return [
      extraQuestion(
        test,
        'distance',
        'length of the timed course in m',
        'leave empty where you have the speed in m/s',
        keyOf(COURSE_KEYS, 'distance').leaf,
      ),
      resultQuestion(test, null, answers),
      ...(byTime(test, answers) && measured(answers, id)
        ? [extraQuestion(test, 'start', 'start of the timed part', 'standing or moving', keyOf(COURSE_KEYS, 'start').leaf)]
        : []),
    ];
  const results = test.sided
    ? ['right', 'left'].map((side) => resultQuestion(test, side, answers))
    : [resultQuestion(test, null, answers)];
  const asksCeiling =
    test.ceiling === null && test.common_ceilings.length > 0 && measured(answers, ...results.map((each) => each.id));
  return [
    ...results,
    ...(asksCeiling
      ? [
          extraQuestion(
            test,
            'ceiling',
            'where the watch is stopped at the latest, in s',
            `such as ${test.common_ceilings.join(', ')}; leave empty where it runs on`,
            keyOf(MEASURED_KEYS, 'ceiling').leaf,
          ),
        ]
      : []),
  ];
}
