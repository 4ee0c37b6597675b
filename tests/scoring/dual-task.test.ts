/** A second task that was tried and gives no cost is said to give none: silence would read as "not tried". */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Reading } from '../../src/session.ts';
import { measured, recorded, session, unable } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

const evidence = testEvidence();

function notesOf(tests: Readonly<Record<string, Reading>>): string[] {
  const found = assess(session(Object.entries(tests).map(([test, reading]) => recorded(test, reading))), evidence);
  expect(found.tests.some(({ test }) => test === 'dual_task_cost')).toBe(false);
  return found.notes.filter((note) => /cost of a second task/i.test(note));
}
const [ALONE, WITH_TASK] = ['timed_up_and_go', 'timed_up_and_go_cognitive'];

describe('the cost of a second task that cannot be formed', () => {
  it.each<[string, Readonly<Record<string, Reading>>, RegExp]>([
    ['unable with the task', { [ALONE]: measured(12), [WITH_TASK]: unable }, /timed up and go with a mental task unable/],
    ['unable without it', { [ALONE]: unable, [WITH_TASK]: measured(15) }, /timed up and go unable/],
    ['without the plain test', { [WITH_TASK]: measured(15) }, /timed up and go not recorded/],
    ['stopped too early', { [ALONE]: measured(12), [WITH_TASK]: measured(60, { ceiling: 60 }) }, /stopped too early to tell/],
    ['declined with the task', { [ALONE]: measured(12), [WITH_TASK]: { outcome: 'declined', reason: 'tired' } }, /^$/],
  ])('%s', (_, tests, words) => {
    const notes = notesOf(tests);
    if (words.source === '^$') expect(notes).toEqual([]);
    else {
      expect(notes).toHaveLength(1);
      expect(notes[0]).toMatch(/cannot be formed: /);
      expect(notes[0]).toMatch(words);
      // A cost has no ends, so no range is promised.
      expect(notes[0]).not.toContain('still possible');
    }
  });

  it('nothing is said where no second task was tried', () => {
    expect(notesOf({ [ALONE]: measured(12) })).toEqual([]);
    expect(notesOf({ [ALONE]: unable })).toEqual([]);
  });
});
