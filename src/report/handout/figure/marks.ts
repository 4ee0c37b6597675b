/** Everything in a drawing besides the person: furniture, hands, arrows. Black on white; far things are thinner, not grey. */
import { add, FLOOR, type Point, pathOf } from './geometry.ts';

/** One element of the drawing, as SVG. */
export type Mark = string;

const n = (value: number): string => String(Math.round(value * 10) / 10);

export const line = (points: readonly Point[], width = 3, more = ''): Mark =>
  `<path d="${pathOf(points)}" fill="none" stroke="#000" stroke-width="${width}" stroke-linecap="round" stroke-linejoin="round"${more}/>`;

export const circle = ([x, y]: Point, radius: number, fill: '#000' | '#fff', width = 3): Mark =>
  `<circle cx="${n(x)}" cy="${n(y)}" r="${radius}" fill="${fill}" stroke="#000" stroke-width="${width}"/>`;

const box = (x: number, y: number, width: number, height: number, fill = '#fff', more = ''): Mark =>
  `<rect x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}" fill="${fill}" stroke="#000" stroke-width="2.5"${more}/>`;

/** Slanted lines inside a box: what is solid is hatched. */
function hatch(x: number, y: number, width: number, height: number, step = 9): Mark {
  const lines: Mark[] = [];
  for (let at = x - height; at < x + width; at += step) {
    const from: Point = at < x ? [x, y + height - (x - at)] : [at, y + height];
    const to: Point = at + height > x + width ? [x + width, y + (at + height - x - width)] : [at + height, y];
    lines.push(line([from, to], 1));
  }
  return lines.join('');
}

export const floor = (): Mark =>
  line(
    [
      [6, FLOOR],
      [234, FLOOR],
    ],
    3,
  );

/** A bench in front of a person who faces right: a solid block. Its top is where the hands go. */
export const BENCH_TOP = 138;
export const bench = (left: number): Mark =>
  `${box(left, BENCH_TOP, 232 - left, 12)}${hatch(left, BENCH_TOP, 232 - left, 12)}${box(left + 8, BENCH_TOP + 12, 224 - left, FLOOR - BENCH_TOP - 12)}`;

/** A long bench beside or in front of a person, seen along its whole length; the person stands before it. */
export const longBench = (): Mark =>
  `${box(8, BENCH_TOP, 224, 10)}${hatch(8, BENCH_TOP, 224, 10)}${line(
    [
      [20, BENCH_TOP + 10],
      [20, FLOOR],
    ],
    2.5,
  )}${line(
    [
      [220, BENCH_TOP + 10],
      [220, FLOOR],
    ],
    2.5,
  )}`;

export interface ChairShape {
  readonly left: number;
  readonly right: number;
  readonly seat: number;
  readonly arms?: boolean;
  readonly cushion?: boolean;
}
/** A chair from the side, its back to the left. */
export function chair({ left, right, seat, arms, cushion }: ChairShape): Mark {
  const back = seat - 66;
  return [
    line(
      [
        [left, back],
        [left, FLOOR],
      ],
      4,
    ),
    line(
      [
        [left, seat],
        [right, seat],
      ],
      4,
    ),
    line(
      [
        [right, seat],
        [right, FLOOR],
      ],
      4,
    ),
    ...(arms === true
      ? [
          line(
            [
              [left, seat - 26],
              [right, seat - 26],
              [right, seat],
            ],
            4,
          ),
        ]
      : []),
    ...(cushion === true
      ? [box(left + 4, seat - 13, right - left - 4, 12, '#fff', ' rx="5"'), hatch(left + 6, seat - 11, right - left - 8, 8, 6)]
      : []),
  ].join('');
}

/** A chair seen from the front: seat, legs and the top of the back. */
export const chairFromFront = (): Mark =>
  [
    box(90, 128, 60, 10),
    line(
      [
        [94, 138],
        [94, 184],
      ],
      3,
    ),
    line(
      [
        [146, 138],
        [146, 184],
      ],
      3,
    ),
    box(84, 184, 72, 9),
    line(
      [
        [88, 193],
        [88, FLOOR],
      ],
      4,
    ),
    line(
      [
        [152, 193],
        [152, FLOOR],
      ],
      4,
    ),
  ].join('');

export const step = (left: number, width: number, height: number): Mark =>
  `${box(left, FLOOR - height, width, height)}${hatch(left, FLOOR - height, width, height)}`;

export const FOAM_HEIGHT = 12;
export const foam = (left: number, width: number): Mark =>
  `${box(left, FLOOR - FOAM_HEIGHT, width, FOAM_HEIGHT, '#fff', ' rx="6"')}${[...Array(Math.floor(width / 10) - 1).keys()].map((index) => circle([left + 10 + index * 10, FLOOR - 6], 1.2, '#000', 0.5)).join('')}`;

export const ball = (at: Point): Mark => circle(at, 10, '#fff', 2.5) + line([add(at, -10, 0), add(at, 10, 0)], 1.5);

export const weight = (at: Point): Mark => box(at[0] - 9, at[1] - 7, 18, 14, '#000');

/** A straight arrow with its head at `to`. */
export function arrow(from: Point, to: Point, width = 4): Mark {
  const angle = Math.atan2(to[1] - from[1], to[0] - from[0]);
  const wing = (turn: number): Point => [to[0] - 12 * Math.cos(angle + turn), to[1] - 12 * Math.sin(angle + turn)];
  return line([from, to], width) + line([wing(0.5), to, wing(-0.5)], width);
}

/** Three quarters of a circle with a head: "in circles". */
export function circleArrow([x, y]: Point, radius: number): Mark {
  const end: Point = [x, y - radius];
  const arc = `<path d="M${n(x - radius)} ${n(y)} A${radius} ${radius} 0 1 0 ${n(end[0])} ${n(end[1])}" fill="none" stroke="#000" stroke-width="2.5"/>`;
  return arc + line([add(end, 6, -6), end, add(end, 7, 5)], 2.5);
}

/** A bow over the head with a head at each end: "turn from side to side". */
export function turnArrow([x, y]: Point): Mark {
  const [left, right]: readonly [Point, Point] = [
    [x - 24, y - 16],
    [x + 24, y - 16],
  ];
  return `<path d="M${n(left[0])} ${n(left[1])} Q${n(x)} ${n(y - 42)} ${n(right[0])} ${n(right[1])}" fill="none" stroke="#000" stroke-width="3"/>${line([add(left, 0, -10), left, add(left, 10, -2)], 3)}${line([add(right, 0, -10), right, add(right, -10, -2)], 3)}`;
}

/** Somebody says something: a task for the head. */
export const speech = ([x, y]: Point): Mark =>
  `<path d="M${n(x - 2)} ${n(y + 8)} L${n(x + 10)} ${n(y)} L${n(x + 10)} ${n(y - 18)} L${n(x + 52)} ${n(y - 18)} L${n(x + 52)} ${n(y + 4)} L${n(x + 16)} ${n(y + 4)} Z" fill="#fff" stroke="#000" stroke-width="2.5"/>${[20, 31, 42].map((dx) => circle([x + dx, y - 7], 2.4, '#000', 1)).join('')}`;
