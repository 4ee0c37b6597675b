/**
 * Keeps small numbers out of a page that leaves the clinic: every count of it is a band, 0 to 5, 6 to 10, 11 to 15 and so on.
 * That holds for totals and sizes too, so that a sum or a difference of what is shown is a range as well, whichever tables,
 * groups, parts or pages it is taken from. The first band is the widest: who knows one total exactly narrows a count in it to
 * 0 or to 5 at most, to nothing between. Method: rounding of all cells (Hundepool et al., Statistical Disclosure Control, 2012,
 * ch. 5), in place of withholding single cells, which holds for one table with its sums and not for several that count the same
 * people.
 *
 * Whatever else stands on such a page follows from the bands, or is of so many people that it tells nothing of a small count.
 */
import type { Band, Count } from './types.ts';

/** People in the first band at most. */
const FIRST_TO = 5;
const WIDTH = 5;

export const BANDS = { first_to: FIRST_TO, width: WIDTH } as const;

export function bandOf(count: number): Band {
  if (count <= FIRST_TO) return { from: 0, to: FIRST_TO };
  const to = FIRST_TO + WIDTH * Math.ceil((count - FIRST_TO) / WIDTH);
  return { from: to - WIDTH + 1, to };
}

export const lowest = (count: Count): number => (typeof count === 'number' ? count : count.from);
export const highest = (count: Count): number => (typeof count === 'number' ? count : count.to);

/** In the first band: nought, or too few to be told. A number is small only as nought. */
export const isSmall = (count: Count): boolean => lowest(count) === 0;

/** As the page has it. */
export const showAs = (masked: boolean): ((count: number) => Count) => (masked ? bandOf : (count) => count);

/** Some number of people, out of what each piece holds. */
export type CountOf<Piece> = (pick: (piece: Piece) => number) => Count;

/** `pieces` make up the whole. Where each has a page of its own, the bands of the whole are the sums of theirs and tell nothing more. */
export function countOf<Piece>(pieces: readonly Piece[], masked: boolean): CountOf<Piece> {
  const show = showAs(masked);
  return (pick) => pieces.map((piece) => show(pick(piece))).reduce(plus);
}

const plus = (a: Count, b: Count): Count =>
  typeof a === 'number' && typeof b === 'number' ? a + b : { from: lowest(a) + lowest(b), to: highest(a) + highest(b) };

/**
 * People of whom a median or a mean is shown on a masked page, and a quartile. Both are where a band begins, so that showing one
 * tells no more of their number than the band does; and half of the former, a quarter of the latter, is more than a small count,
 * so that neither tells one.
 */
export const LEAST_FOR_MIDDLE = FIRST_TO + WIDTH + 1;
export const LEAST_FOR_QUARTILES = FIRST_TO + 3 * WIDTH + 1;
