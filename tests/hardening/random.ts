/** A small seeded source of chance, so that a case that failed can be made again from its number alone. */
export interface Chance {
  /** From 0 up to but without 1. */
  readonly next: () => number;
  /** Whole, from 0 up to but without `below`. */
  readonly whole: (below: number) => number;
  readonly pick: <Item>(items: readonly Item[]) => Item;
  readonly maybe: (probability: number) => boolean;
}

/** Mulberry32: 32 bits of state, far more than enough to choose test cases by. */
export function chance(seed: number): Chance {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const whole = (below: number): number => Math.floor(next() * below);
  const pick = <Item>(items: readonly Item[]): Item => {
    const item = items[whole(items.length)];
    if (item === undefined) throw new Error('nothing to pick from');
    return item;
  };
  return { next, whole, pick, maybe: (probability) => next() < probability };
}
