/** Where the hands are for each kind of support, by the place of the bench. */
import type { Rung } from '../../../evidence/schema/exercise.ts';
import { add, type Point } from './geometry.ts';
import { BENCH_TOP } from './marks.ts';
import type { Arm, Grip } from './person.ts';

export interface Hands {
  readonly near: Arm;
  readonly far: Arm;
}
type Support = Rung['support'];

const GRIPS: Readonly<Record<Support, Grip>> = {
  seated: 'firm',
  both_hands_firm: 'firm',
  one_hand_firm: 'firm',
  light_touch: 'light',
  fingertip: 'fingertip',
  hands_ready: 'ready',
  hands_free: 'free',
};
/** Height of a hand over the bench: on it, lightly on it, a finger's length, a hand's breadth above. */
const ABOVE: Readonly<Record<Grip, number>> = { firm: 3, light: 6, fingertip: 20, ready: 26, free: 0 };

/** Supports with both hands at the bench; with the others the second hand hangs. */
const BOTH: readonly Support[] = ['both_hands_firm', 'light_touch', 'hands_ready'];

/** `places` are the two spots at the bench (near hand first), `hanging` where the hands are without it. */
export function handsAt(support: Support, places: readonly [Point, Point], hanging: readonly [Point, Point]): Hands {
  const grip = GRIPS[support];
  const at = ([x]: Point): Arm => ({ hand: [x, BENCH_TOP - ABOVE[grip]], grip });
  const down = (hand: Point): Arm => ({ hand, grip: 'free' });
  if (support === 'hands_free') return { near: down(hanging[0]), far: down(hanging[1]) };
  return { near: at(places[0]), far: BOTH.includes(support) ? at(places[1]) : down(hanging[1]) };
}

/** Hands hanging beside a body seen from the side. */
export const hangingFrom = (shoulder: Point): readonly [Point, Point] => [add(shoulder, -12, 66), add(shoulder, 12, 64)];

/** A ball between both hands in front of the chest. */
export const ballHands = (shoulder: Point): { readonly hands: Hands; readonly ball: Point } => {
  const centre = add(shoulder, 42, 30);
  return {
    hands: { near: { hand: add(centre, -9, 6), grip: 'free' }, far: { hand: add(centre, 9, -6), grip: 'free' } },
    ball: add(centre, 2, -16),
  };
};
