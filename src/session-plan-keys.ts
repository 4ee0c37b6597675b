/** Keys of `plan:` in a session file, as data like those of session-keys.ts. */
import type { Keys } from './session-keys.ts';

const number = { kind: 'number' } as const;
const text = { kind: 'text' } as const;

/** The professional's own plan. Levels and doses of one exercise stand under `exercises`, by its id. */
export const PLAN_KEYS: Keys = {
  days: { leaf: number, about: 'Days a week on which the client can exercise, 1 to 7' },
  minutes_a_day: { leaf: number, about: 'Minutes that the client can fit in on such a day' },
  choose: { leaf: { kind: 'texts' }, about: 'Ids of the exercises that go home, in place of the usual list' },
};
export const PLAN_EXERCISE_KEYS: Keys = {
  level: { leaf: number, about: 'Level to start at, from 1 with most support; 0 for the seated variant' },
  dose: { leaf: text, about: 'Dose in your own words, in place of the usual one' },
  days: { leaf: number, about: 'Days a week, 1 to 7' },
  leave_out: { leaf: { kind: 'answer' }, about: 'Leave this exercise out' },
  reason: { leaf: text, about: 'Why it is set so' },
};
