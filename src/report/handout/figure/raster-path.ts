/** Paths of the drawings as points: straight lines, one bow (quadratic) and the arc of a circle; and dashes along them. */
import { along, distance, type Point } from './geometry.ts';

const STEPS = 24;
const steps = [...Array(STEPS).keys()].map((index) => (index + 1) / STEPS);

function bow(from: Point, control: Point, to: Point): Point[] {
  return steps.map((share) => along(along(from, control, share), along(control, to, share), share));
}

/** The arc of the circle arrows: three quarters of a circle that starts at its left and ends at its top, the long way round. */
function longArc(from: Point, radius: number, to: Point): Point[] {
  const centre: Point = [to[0], from[1]];
  return steps.map((share) => {
    const angle = Math.PI - share * 1.5 * Math.PI;
    return [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)];
  });
}

/** Points of a path that `marks.ts` made. Commands: M, L, Q, A (only the arc of a circle arrow) and Z. */
export function pathPoints(d: string): Point[] {
  const points: Point[] = [];
  for (const [, command = '', rest = ''] of d.matchAll(/([MLQAZ])([^MLQAZ]*)/g)) {
    const numbers = rest
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    const at = (index: number): Point => [numbers[index] ?? 0, numbers[index + 1] ?? 0];
    const last = points.at(-1) ?? [0, 0];
    if (command === 'M' || command === 'L') points.push(at(0));
    else if (command === 'Q') points.push(...bow(last, at(0), at(2)));
    else if (command === 'A') points.push(...longArc(last, numbers[0] ?? 0, at(5)));
    else if (points[0] !== undefined) points.push(points[0]);
  }
  return points;
}

/** Pieces of a line under a pattern of dash and gap; the line itself without a pattern. */
export function dashed(points: readonly Point[], [dash, gap]: readonly number[]): (readonly Point[])[] {
  if (dash === undefined || gap === undefined) return [points];
  const pieces: Point[][] = [];
  for (let index = 1; index < points.length; index += 1) {
    const [from, to]: readonly [Point, Point] = [points[index - 1] ?? [0, 0], points[index] ?? [0, 0]];
    const length = distance(from, to);
    for (let start = 0; start < length; start += dash + gap)
      pieces.push([along(from, to, start / length), along(from, to, Math.min(length, start + dash) / length)]);
  }
  return pieces;
}
