/** The drawings: one for every exercise and rung, black and white only, inside the frame, telling one rung from the next. */
import { inflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { figureMarks, figureSvg } from '../../src/report/handout/figure/figure.ts';
import { BODY, distance, HEIGHT, jointBetween, WIDTH } from '../../src/report/handout/figure/geometry.ts';
import { figurePng } from '../../src/report/handout/figure/raster.ts';
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

describe('as PNG, for word processors', () => {
  const stance = exercises.find(({ id }) => id === 'single_leg_standing');
  if (stance === undefined) throw new Error('missing');
  const png = Buffer.from(figurePng(figureMarks(stance, 5)));
  const data = png.subarray(png.indexOf('IDAT') + 4, png.indexOf('IEND') - 8);
  const rows = inflateSync(data);
  const width = png.readUInt32BE(16);
  /** Ink at a point of the drawing: 0 black, 255 white. */
  const at = (x: number, y: number): number => rows[y * 2 * (width + 1) + 1 + x * 2] ?? -1;

  test('twice the units of the drawing', () => expect([width, png.readUInt32BE(20)]).toEqual([WIDTH * 2, HEIGHT * 2]));

  test('floor and trunk are black, the hand is an open ring, the rest is white', () => {
    expect(at(20, 244)).toBe(0);
    expect(at(100, 120)).toBe(0);
    expect(at(136, 112)).toBe(255);
    expect(at(20, 20)).toBe(255);
  });

  test('every drawing can be made, and none is blank', () => {
    for (const { exercise, level } of all.filter(({ level }) => level % 3 === 0)) {
      const bytes = figurePng(figureMarks(exercise, level));
      expect(bytes.length, `${exercise.id} ${level}`).toBeGreaterThan(1000);
    }
  });

  test('no element is left out: paths, circles, boxes and ovals are all there is', () => {
    for (const { exercise, level } of all) {
      const kinds = new Set([...figureMarks(exercise, level).matchAll(/<([a-z]+)/g)].map((match) => match[1]));
      expect([...kinds].filter((kind) => !['path', 'circle', 'rect', 'ellipse'].includes(kind ?? ''))).toEqual([]);
    }
  });
});
