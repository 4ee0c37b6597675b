/**
 * The page of every problem code: why the program asks, what was written and what to write instead. Every example is tried by a
 * test: the wrong one gives the code, the right one does not. Examples are whole files but for what FRAME adds.
 */
import type { ProblemCode } from './problems.ts';

export interface ProblemPage {
  /** Why it is asked for; one or two sentences. */
  readonly why: string;
  /** Lines of a visit file, without those that FRAME adds unless the example writes them itself. */
  readonly wrong: string;
  readonly right: string;
}

/** Put before an example that does not begin with `format`, so that nothing else is wrong with it. */
export const FRAME = 'format: 1\nclient: {ref: M-207, sex: female, age: 74}\nassessed: 2026-05-11\n';

const tests = (line: string): string => `tests:\n  ${line}\n`;

export const PROBLEM_PAGES: Readonly<Record<Exclude<ProblemCode, 'too_large' | 'empty_file'>, ProblemPage>> = {
  yaml_syntax: {
    why: 'The file is YAML: lines of "key: value", set in by blanks. A bracket or a quote that is not closed ends the reading.',
    wrong: 'history: {falls_past_year: 1\n',
    right: 'history: {falls_past_year: 1}\n',
  },
  tab: {
    why: 'YAML counts blanks at the beginning of a line; a tab looks the same but is not.',
    wrong: 'tests:\n\ttimed_up_and_go: 12.8\n',
    right: tests('timed_up_and_go: 12.8'),
  },
  duplicate_key: {
    why: 'Two results under one key: one of them would be lost. Several trials go into a list.',
    wrong: 'tests:\n  timed_up_and_go: 12.8\n  timed_up_and_go: 13.1\n',
    right: tests('timed_up_and_go: [12.8, 13.1]'),
  },
  two_documents: {
    why: 'A line of three hyphens begins a second document. One file is one visit.',
    wrong: `${FRAME}---\n${FRAME}`,
    right: FRAME,
  },
  alias: {
    why: 'A value that points to another is easily overlooked. Write it out.',
    wrong: 'history: {feels_unsteady: &a yes, worries_about_falling: *a}\n',
    right: 'history: {feels_unsteady: yes, worries_about_falling: yes}\n',
  },
  merge_key: {
    why: 'Keys taken over from elsewhere are easily overlooked. Write them out.',
    wrong: 'history:\n  <<: {feels_unsteady: yes}\n',
    right: 'history: {feels_unsteady: yes}\n',
  },
  tag: {
    why: 'A tag tells YAML to read a value as something else. A visit needs none.',
    wrong: tests('timed_up_and_go: !!str 12.8'),
    right: tests('timed_up_and_go: 12.8'),
  },
  directive: {
    why: 'A line that begins with % changes how YAML is read. A visit needs none.',
    wrong: `%YAML 1.1\n---\n${FRAME}`,
    right: FRAME,
  },
  not_a_mapping: {
    why: 'Here the file needs lines of "key: value", not a list or a single word.',
    wrong: 'history: [1, no]\n',
    right: 'history: {falls_past_year: 1, fall_injury: no}\n',
  },
  unknown_key: {
    why: 'A misspelt key would be a result that is silently not used.',
    wrong: 'health: {oral_steriod: no}\n',
    right: 'health: {oral_steroid: no}\n',
  },
  missing_key: {
    why: 'Every visit needs format, assessed, and the reference and sex of the client.',
    wrong: 'format: 1\nclient: {ref: M-207, sex: female, age: 74}\n',
    right: FRAME,
  },
  wrong_format: {
    why: 'The number says which shape of file this is; this program reads 1.',
    wrong: FRAME.replace('format: 1', 'format: 2'),
    right: FRAME,
  },
  not_yes_no: {
    why: 'Anything else cannot be told apart from a slip. Unknown is an answer of its own; it is never read as no.',
    wrong: 'history: {feels_unsteady: sometimes}\n',
    right: 'history: {feels_unsteady: yes}\n',
  },
  not_a_choice: {
    why: 'Only the listed words can stand here, since rules depend on them.',
    wrong: 'health: {walking_aid: cane}\n',
    right: 'health: {walking_aid: stick}\n',
  },
  bad_text: {
    why: 'A few words are wanted: a note or a reason. Put them in quotes where they hold : or #.',
    wrong: 'goals: {walk: far}\n',
    right: 'goals: "walk to the shop"\n',
  },
  bad_date: {
    why: 'Day and month are written in either order around the world; year-month-day is read in one way only.',
    wrong: FRAME.replace('2026-05-11', '11/05/2026'),
    right: FRAME,
  },
  bad_pressure: {
    why: 'Blood pressure is systolic/diastolic in mmHg.',
    wrong: 'vitals: {bp_lying: 138 over 78}\n',
    right: 'vitals: {bp_lying: 138/78}\n',
  },
  decimal_comma: {
    why: 'To YAML a comma separates two values; inside brackets 4,2 would be 4 and 2.',
    wrong: tests('timed_up_and_go: 12,8'),
    right: tests('timed_up_and_go: 12.8'),
  },
  unit_in_number: {
    why: 'The unit of every test is fixed (see "footing protocol TEST"); a number with a unit is a text.',
    wrong: tests('timed_up_and_go: 12.8 s'),
    right: tests('timed_up_and_go: 12.8'),
  },
  inexact_number: {
    why: 'A bound or an "about" is no measurement. A watch stopped at its ceiling is written with the ceiling.',
    wrong: tests('single_leg_stance_eyes_open: {right: 30+}'),
    right: tests('single_leg_stance_eyes_open: {right: 30, ceiling: 30}'),
  },
  clock_time: {
    why: 'Tests are in seconds; with a colon a number can be minutes and seconds or something else.',
    wrong: tests('five_times_sit_to_stand: 0:45'),
    right: tests('five_times_sit_to_stand: 45'),
  },
  number_format: {
    why: 'Forms such as 0x1f or 1_000 are read in different ways by different programs.',
    wrong: tests('timed_up_and_go: 0x1f'),
    right: tests('timed_up_and_go: 31'),
  },
  quoted_number: {
    why: 'In quotes it is a text.',
    wrong: tests('timed_up_and_go: "12.8"'),
    right: tests('timed_up_and_go: 12.8'),
  },
  not_a_number: {
    why: 'A number is wanted here.',
    wrong: 'vitals: {spo2_rest: good}\n',
    right: 'vitals: {spo2_rest: 94}\n',
  },
  bare_outcome: {
    why: 'Why a test was not done decides how it is read: unable is the worst result, declined is not tested, unsafe depends on why.',
    wrong: tests('five_times_sit_to_stand: unable'),
    right: tests('five_times_sit_to_stand: {unable: could not rise without arms}'),
  },
  bad_test_form: {
    why: 'A result is a number, a list of trials, {value or trials, ...} or {unable: reason}; a walk also {time, distance, start}.',
    wrong: tests('gait_speed_usual: {time: 4.9}'),
    right: tests('gait_speed_usual: {time: 4.9, distance: 4, start: standing}'),
  },
  not_sided: {
    why: 'Right and left are for tests of one leg or one hand.',
    wrong: tests('timed_up_and_go: {right: 12.8, left: 13.1}'),
    right: tests('timed_up_and_go: [12.8, 13.1]'),
  },
  above_ceiling: {
    why: 'The watch of this test is stopped at its ceiling; a longer time was measured another way, and the file must say so.',
    wrong: tests('tandem_stance: 12'),
    right: tests('tandem_stance: {value: 12, ceiling: 30}'),
  },
  ceiling_not_stated: {
    why: 'A time of exactly 30 s is often a watch that was stopped. It is read as the time held unless the ceiling is stated.',
    wrong: tests('single_leg_stance_eyes_open: {right: 30}'),
    right: tests('single_leg_stance_eyes_open: {right: 30, ceiling: 30}'),
  },
  impossible: {
    why: 'No person gives this value: a slip of typing or of the watch. The limits stand in norms/tests.yaml and norms/fields.yaml.',
    wrong: tests('timed_up_and_go: 1.28'),
    right: tests('timed_up_and_go: 12.8'),
  },
  not_whole: {
    why: 'What is counted is counted in whole numbers.',
    wrong: tests('thirty_second_chair_stand: 9.5'),
    right: tests('thirty_second_chair_stand: 9'),
  },
  unusual: {
    why: 'Possible, but rare enough to look twice. The value is kept and noted in the report; a clinic can set own limits (footing help limits).',
    wrong: tests('timed_up_and_go: 128'),
    right: tests('timed_up_and_go: 12.8'),
  },
  future_date: {
    why: 'A visit that has not been cannot have results; often the year is mistyped.',
    wrong: FRAME.replace('2026-05-11', '2062-05-11'),
    right: FRAME,
  },
  born_after_visit: {
    why: 'The age on the day of the visit is worked out from both dates.',
    wrong: 'format: 1\nclient: {ref: M-207, sex: female, born: 2026-05-12}\nassessed: 2026-05-11\n',
    right: 'format: 1\nclient: {ref: M-207, sex: female, born: 1952-03-08}\nassessed: 2026-05-11\n',
  },
  contradiction: {
    why: 'Two entries cannot both be true, and a level of risk would rest on one of them.',
    wrong: 'history: {falls_past_year: 0, fall_injury: yes}\n',
    right: 'history: {falls_past_year: 1, fall_injury: yes}\n',
  },
  doubtful: {
    why: 'The entries seldom go together. They are kept and noted in the report.',
    wrong: 'vitals: {spo2_rest: 94, spo2_lowest: 98}\n',
    right: 'vitals: {spo2_rest: 94, spo2_lowest: 88}\n',
  },
};

/** The two codes that concern the file as a whole, without an example. */
export const WHOLE_FILE_PAGES: Readonly<Record<'too_large' | 'empty_file', string>> = {
  too_large: 'A visit takes a page. A file of more than a million characters is something else; a cohort goes into a CSV file.',
  empty_file: 'There is nothing in the file. "footing new --blank" gives an empty form to fill in.',
};
