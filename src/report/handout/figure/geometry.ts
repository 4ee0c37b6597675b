/** Points and the two-bone joint that every arm and leg is drawn with. Units are those of the drawing, 240 wide and 260 high. */
export type Point = readonly [number, number];

export const WIDTH = 240;
export const HEIGHT = 260;
export const FLOOR = 244;

/** Lengths of a figure. */
export const BODY = { torso: 62, thigh: 46, shank: 46, upperArm: 34, forearm: 34, head: 16, neck: 8 } as const;

export const distance = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
export const add = (a: Point, dx: number, dy: number): Point => [a[0] + dx, a[1] + dy];

/** A point on the way from `a` to `b`, and beyond it for `share` above 1. */
export const along = (a: Point, b: Point, share: number): Point => [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];

/**
 * The joint between two bones of lengths `first` and `second` from `from` to `to`, by the law of cosines. `side` 1 bends to the
 * right of the way from `from` to `to` as seen on paper, -1 to the left. Where the bones are too short, the limb is straight.
 */
export function jointBetween(from: Point, to: Point, first: number, second: number, side: 1 | -1): Point {
  const reach = distance(from, to);
  if (reach >= first + second || reach === 0) return along(from, to, first / (first + second));
  const onLine = (first * first - second * second + reach * reach) / (2 * reach);
  const off = Math.sqrt(Math.max(0, first * first - onLine * onLine)) * side;
  const [ux, uy] = [(to[0] - from[0]) / reach, (to[1] - from[1]) / reach];
  return [from[0] + ux * onLine + uy * off, from[1] + uy * onLine - ux * off];
}

const round = (value: number): string => String(Math.round(value * 10) / 10);

/** `M x y L x y ...` */
export const pathOf = (points: readonly Point[]): string =>
  points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${round(x)} ${round(y)}`).join(' ');
