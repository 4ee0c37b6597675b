/** The drawings: one for every exercise and rung, black and white only, inside the frame, telling one rung from the next. */
import { describe, expect, test } from 'vitest';
import { figureMarks, figureSvg } from '../../src/report/handout/figure/figure.ts';
import { BODY, distance, HEIGHT, jointBetween, WIDTH } from '../../src/report/handout/figure/geometry.ts';
import { testEvidence } from '../support/evidence.ts';

const { exercises } = testEvidence();
const all = exercises.flatMap((exercise) =>
  [...exercise.ladder.keys(), exercise.ladder.length].map((level) => ({ exercise, level })),
);

describe.each(all.map((each) => [`${each.exercise.id} at ${each.level}`, each] as const))('%s', (_name, { exercise, level }) => {
  const marks = figureMarks(exercise, level);

  test('black and white only', () => {
    const colours = [...marks.matchAll(/(?:fill|stroke)="([^"]+)"/g)].map((match) => match[1]);
    expect([...new Set(colours)].filter((colour) => !['#000', '#fff', 'none'].includes(colour ?? ''))).toEqual([]);
  });

  test('inside the frame', () => {
    const points = [...marks.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(
      (match) => [Number(match[1]), Number(match[2])] as const,
    );
    for (const [x, y] of points) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(WIDTH);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(HEIGHT);
    }
    expect(points.flat().some(Number.isNaN)).toBe(false);
  });

  test('there is a bench, a step or a chair', () => {
    expect(marks).toMatch(/<rect|stroke-width="4"/);
  });
});

test.each(exercises.map((exercise) => [exercise.id, exercise] as const))(
  '%s: no two rungs that differ in hold are drawn alike',
  (_id, exercise) => {
    const drawn = exercise.ladder.map((rung, index) => ({ rung, marks: figureMarks(exercise, index + 1) }));
    for (const one of drawn)
      for (const other of drawn)
        if (one.rung.support !== other.rung.support)
          expect(one.marks, `${one.rung.name} / ${other.rung.name}`).not.toBe(other.marks);
  },
);

test('a firm hold is filled hands at the bench; a light touch open ones; ready leaves a dashed gap; a fingertip one line down', () => {
  const stance = exercises.find(({ id }) => id === 'single_leg_standing');
  if (stance === undefined) throw new Error('missing');
  const filledHands = (level: number) => figureMarks(stance, level).split('r="7" fill="#000"').length - 1;
  expect([1, 2, 3, 4, 5, 6].map(filledHands)).toEqual([2, 1, 0, 0, 0, 0]);
  const dashed = (level: number) => figureMarks(stance, level).includes('stroke-dasharray="2 4"');
  expect([1, 2, 3, 4, 5, 6].map(dashed)).toEqual([false, false, false, false, true, false]);
});

test('a label is escaped', () => {
  const [exercise] = exercises;
  if (exercise === undefined) throw new Error('missing');
  expect(figureSvg(exercise, 1, '"<b>&')).toContain('aria-label="&quot;&lt;b&gt;&amp;"');
});

test('a joint keeps the length of its bones, and a limb too short for its way is straight', () => {
  const knee = jointBetween([100, 150], [100, 220], BODY.thigh, BODY.shank, 1);
  expect(distance([100, 150], knee)).toBeCloseTo(BODY.thigh, 6);
  expect(distance(knee, [100, 220])).toBeCloseTo(BODY.shank, 6);
  expect(knee[0]).toBeGreaterThan(100);
  expect(jointBetween([0, 0], [0, 200], 50, 50, 1)).toEqual([0, 100]);
});
