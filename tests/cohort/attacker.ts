/**
 * Somebody who has published pages and wants a small count: writes down every sum that must hold between the numbers, and looks
 * whether one that is given as a band can have another value. Whole numbers, exact: bounds are drawn together and the rest is
 * tried.
 */
import { highest, lowest } from '../../src/cohort/summary/bands.ts';
import type { Count } from '../../src/cohort/summary/types.ts';

/** Factor and unknown of each term; they add up to nought. */
type Equation = readonly (readonly [number, number])[];

/** More than any count of these tests. */
export const MOST = 500;

export class Puzzle {
  readonly #places = new Map<string, number>();
  readonly #low: number[] = [];
  readonly #high: number[] = [];
  readonly #equations: Equation[] = [];
  readonly #uses: number[][] = [];
  #bounds: { readonly low: readonly number[]; readonly high: readonly number[] } | null = null;
  #truth: readonly number[] | null = null;

  get names(): string[] {
    return [...this.#places.keys()];
  }

  /** A count as published; null is unknown. */
  count(name: string, count: Count | null, low = 0, high = MOST): void {
    if (this.#places.has(name)) throw new Error(`${name} is there twice`);
    this.#places.set(name, this.#low.length);
    this.#low.push(count === null ? low : Math.max(low, lowest(count)));
    this.#high.push(count === null ? high : Math.min(high, highest(count)));
    this.#uses.push([]);
  }

  has(name: string): boolean {
    return this.#places.has(name);
  }

  /** The first names add up to what the second ones add up to. */
  equal(left: readonly string[], right: readonly string[]): void {
    const at = (name: string): number => {
      const place = this.#places.get(name);
      if (place === undefined) throw new Error(`there is no ${name}`);
      return place;
    };
    const terms = [...left.map((name) => [1, at(name)] as const), ...right.map((name) => [-1, at(name)] as const)];
    for (const [, place] of terms) this.#uses[place]?.push(this.#equations.length);
    this.#equations.push(terms);
  }

  /** Bounds by all equations, once: nothing is added after the first question. */
  #drawn(): { readonly low: readonly number[]; readonly high: readonly number[] } {
    if (this.#bounds === null) {
      const [low, high] = [[...this.#low], [...this.#high]];
      if (!this.#tighten(low, high, this.#equations.keys())) throw new Error('the pages contradict themselves');
      this.#bounds = { low, high };
    }
    return this.#bounds;
  }

  /** Draws the bounds together; false where nothing fits any more. */
  #tighten(low: number[], high: number[], from: Iterable<number>): boolean {
    const waiting = new Set(from);
    for (const next of waiting) {
      waiting.delete(next);
      const changed = this.#tightenOne(this.#equations[next] ?? [], low, high);
      if (changed === null) return false;
      for (const place of changed) for (const use of this.#uses[place] ?? []) waiting.add(use);
    }
    return true;
  }

  /** Places whose bounds one equation draws together; null where it cannot hold. */
  #tightenOne(terms: Equation, low: number[], high: number[]): number[] | null {
    const least = (factor: number, at: number): number => (factor > 0 ? (low[at] ?? 0) : -(high[at] ?? 0));
    const most = (factor: number, at: number): number => (factor > 0 ? (high[at] ?? 0) : -(low[at] ?? 0));
    let [leastOfAll, mostOfAll] = [0, 0];
    for (const [factor, at] of terms) {
      leastOfAll += least(factor, at);
      mostOfAll += most(factor, at);
    }
    const changed: number[] = [];
    for (const [factor, at] of terms) {
      const [from, to] = [least(factor, at), most(factor, at)];
      // What is left for this term when all others are as large or as small as they can be.
      const newFrom = Math.max(from, -(mostOfAll - to));
      const newTo = Math.min(to, -(leastOfAll - from));
      if (newFrom > newTo) return null;
      if (newFrom === from && newTo === to) continue;
      low[at] = factor > 0 ? newFrom : -newTo;
      high[at] = factor > 0 ? newTo : -newFrom;
      leastOfAll += newFrom - from;
      mostOfAll += newTo - to;
      changed.push(at);
    }
    return changed;
  }

  /** First something that the truth does not fit any more: what still fits it can stay as it is. -1 where all is settled. */
  #nextToTry(low: readonly number[], high: readonly number[], truth: readonly number[]): number {
    let first = -1;
    for (const [place, least] of low.entries()) {
      const most = high[place] ?? 0;
      if (least === most) continue;
      const real = truth[place] ?? 0;
      if (real < least || real > most) return place;
      if (first === -1) first = place;
    }
    return first;
  }

  #fits(low: number[], high: number[], changed: Iterable<number>, truth: readonly number[], tries: { left: number }): boolean {
    if (!this.#tighten(low, high, changed)) return false;
    const at = this.#nextToTry(low, high, truth);
    if (at === -1) return true;
    const [least, most] = [low[at] ?? 0, high[at] ?? 0];
    const nearest = Math.min(most, Math.max(least, truth[at] ?? 0));
    const values = Array.from({ length: most - least + 1 }, (_, index) => least + index);
    for (const value of values.sort((a, b) => Math.abs(a - nearest) - Math.abs(b - nearest))) {
      tries.left -= 1;
      if (tries.left < 0) return false;
      const [nextLow, nextHigh] = [[...low], [...high]];
      nextLow[at] = value;
      nextHigh[at] = value;
      if (this.#fits(nextLow, nextHigh, this.#uses[at] ?? [], truth, tries)) return true;
    }
    return false;
  }

  /**
   * Can `name` have another value than the true one? `unknown` where too much would have to be tried. The truth serves only
   * to try first what is near to it.
   */
  otherThan(name: string, truths: ReadonlyMap<string, number>): 'yes' | 'no' | 'unknown' {
    const at = this.#places.get(name) ?? -1;
    this.#truth ??= this.names.map((each) => truths.get(each) ?? 0);
    const truth = this.#truth;
    const { low, high } = this.#drawn();
    const real = truth[at] ?? 0;
    const tries = { left: 3000 };
    for (let step = 1; step <= MOST; step += 1)
      for (const value of [real - step, real + step]) {
        if (value < (low[at] ?? 0) || value > (high[at] ?? 0)) continue;
        const [l, h] = [[...low], [...high]];
        l[at] = value;
        h[at] = value;
        if (this.#fits(l, h, this.#uses[at] ?? [], truth, tries)) return 'yes';
        if (tries.left < 0) return 'unknown';
      }
    return 'no';
  }
}
