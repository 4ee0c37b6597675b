import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readItems } from '../../src/risk/items.ts';
import { placement } from '../../src/risk/place.ts';
import { solve } from '../../src/risk/solve.ts';
import { cdcLevel, worldLevel } from './oracles.ts';
import { cdc, type FieldInputs, facts, type TestInputs, worldGuidelines } from './support.ts';

/** A record as notes really are: any part of it may be missing. */
interface Notes {
  setting: 'community' | 'residential_care' | 'hospital';
  falls?: number | undefined;
  unsteady?: boolean | undefined;
  worried?: boolean | undefined;
  injury?: boolean | undefined;
  longLie?: boolean | undefined;
  blackout?: boolean | undefined;
  scale?: number | undefined;
  phenotype?: number | undefined;
  speed?: number | 'unable' | undefined;
  upAndGo?: number | 'unable' | undefined;
  form?: number | undefined;
}
const maybe = <Value>(arbitrary: fc.Arbitrary<Value>): fc.Arbitrary<Value | undefined> =>
  fc.option(arbitrary, { nil: undefined });
const impossible = (notes: Notes): boolean => notes.falls === 0 && (notes.injury === true || notes.longLie === true);

const notesArbitrary: fc.Arbitrary<Notes> = fc
  .record({
    setting: fc.oneof(
      { weight: 8, arbitrary: fc.constant('community' as const) },
      { weight: 1, arbitrary: fc.constantFrom('residential_care' as const, 'hospital' as const) },
    ),
    falls: maybe(fc.constantFrom(0, 0, 1, 2, 5)),
    unsteady: maybe(fc.boolean()),
    worried: maybe(fc.boolean()),
    injury: maybe(fc.boolean()),
    longLie: maybe(fc.boolean()),
    blackout: maybe(fc.boolean()),
    scale: maybe(fc.integer({ min: 1, max: 9 })),
    phenotype: maybe(fc.integer({ min: 0, max: 5 })),
    speed: maybe(fc.oneof(fc.constantFrom(0.79, 0.8, 0.81, 1.2), fc.constant('unable' as const))),
    upAndGo: maybe(fc.oneof(fc.constantFrom(8, 15, 15.1, 40), fc.constant('unable' as const))),
    form: maybe(fc.integer({ min: 0, max: 14 })),
  })
  .filter((notes) => !impossible(notes));

const say = (value: boolean | undefined): string | undefined => (value === undefined ? undefined : value ? 'yes' : 'no');
function stated<Value>(entries: Readonly<Record<string, Value | undefined>>): Record<string, Value> {
  return Object.fromEntries(Object.entries(entries).filter((entry): entry is [string, Value] => entry[1] !== undefined));
}
function factsOf(notes: Notes) {
  const fields: FieldInputs = stated<string | number>({
    'client.setting': notes.setting,
    'history.falls_past_year': notes.falls,
    'history.feels_unsteady': say(notes.unsteady),
    'history.worries_about_falling': say(notes.worried),
    'history.fall_injury': say(notes.injury),
    'history.unable_to_rise': say(notes.longLie),
    'history.loss_of_consciousness': say(notes.blackout),
    'health.clinical_frailty_scale': notes.scale,
    'health.frailty_phenotype': notes.phenotype,
    'history.stay_independent': notes.form,
  });
  const tests: TestInputs = stated<number | 'unable'>({ gait_speed_usual: notes.speed, timed_up_and_go: notes.upAndGo });
  return facts(fields, tests);
}

/** Every way the unanswered questions could be answered. One instrument is enough for frailty and one for gait. */
function completions(notes: Notes): Notes[] {
  let all: Notes[] = [notes];
  const spread = <Key extends keyof Notes>(key: Key, values: readonly Notes[Key][], needed = notes[key] === undefined): void => {
    if (needed) all = all.flatMap((each) => values.map((value) => ({ ...each, [key]: value })));
  };
  spread('falls', [0, 1, 2]);
  spread('unsteady', [false, true]);
  spread('worried', [false, true]);
  spread('injury', [false, true]);
  spread('longLie', [false, true]);
  spread('blackout', [false, true]);
  spread('scale', [3, 7], notes.scale === undefined && notes.phenotype === undefined);
  spread('upAndGo', [10, 20], notes.upAndGo === undefined && notes.speed === undefined);
  return all.filter((each) => !impossible(each));
}

function worldOf(notes: Notes) {
  return worldLevel({
    setting: notes.setting,
    falls: notes.falls ?? 0,
    unsteady: notes.unsteady === true,
    worried: notes.worried === true,
    injury: notes.injury === true,
    longLie: notes.longLie === true,
    blackout: notes.blackout === true,
    frail: (notes.scale ?? 0) >= 5 || (notes.phenotype ?? 0) >= 3,
    gaitImpaired:
      notes.speed === 'unable' || notes.upAndGo === 'unable' || (notes.speed ?? 9) <= 0.8 || (notes.upAndGo ?? 0) > 15,
  });
}
const WORLD = ['low', 'intermediate', 'high'];
const CDC = ['not_at_risk', 'at_risk'];

function bounds(levels: readonly string[], order: readonly string[]) {
  const ranks = levels.map((level) => order.indexOf(level));
  const [low, high] = [order[Math.min(...ranks)], order[Math.max(...ranks)]];
  return { level: low === high ? low : 'undetermined', at_least: low, at_most: high };
}

test('world guidelines: bounds equal brute force over the raw answers on 10 000 incomplete records', () => {
  fc.assert(
    fc.property(notesArbitrary, (notes) => {
      const { missing, ...found } = placement(worldGuidelines, factsOf(notes));
      expect(found).toEqual(bounds(completions(notes).map(worldOf), WORLD));
      expect(missing.length > 0).toBe(found.level === 'undetermined');
    }),
    { numRuns: 10_000 },
  );
});

test('cdc: bounds equal brute force on 10 000 incomplete records', () => {
  fc.assert(
    fc.property(notesArbitrary, (notes) => {
      const { missing: _missing, ...found } = placement(cdc, factsOf(notes));
      // a form under four points takes the place of the two questions that were not asked
      const filled =
        notes.form !== undefined && notes.form < 4
          ? { ...notes, unsteady: notes.unsteady ?? false, worried: notes.worried ?? false }
          : notes;
      const levels = completions(filled).map((each) =>
        cdcLevel({
          falls: each.falls ?? 0,
          injury: each.injury === true,
          longLie: each.longLie === true,
          unsteady: each.unsteady === true,
          worried: each.worried === true,
          form: each.form ?? null,
        }),
      );
      expect(found).toEqual(bounds(levels, CDC));
    }),
    { numRuns: 10_000 },
  );
});

const reach = (notes: Notes): readonly number[] => solve(worldGuidelines, readItems(worldGuidelines, factsOf(notes))).levels;

test('answering one more item never widens what is possible', () => {
  fc.assert(
    fc.property(
      notesArbitrary,
      fc.constantFrom('falls', 'unsteady', 'worried', 'injury', 'longLie', 'blackout', 'scale', 'upAndGo'),
      (notes, key) => {
        fc.pre(notes[key as keyof Notes] === undefined);
        if (key === 'scale') fc.pre(notes.phenotype === undefined);
        if (key === 'upAndGo') fc.pre(notes.speed === undefined);
        const before = reach(notes);
        const values = key === 'falls' ? [0, 1, 2] : key === 'scale' ? [3, 7] : key === 'upAndGo' ? [10, 20] : [false, true];
        for (const value of values) {
          const answered: Notes = { ...notes, [key]: value };
          if (impossible(answered)) continue;
          expect(before).toEqual(expect.arrayContaining([...reach(answered)]));
        }
      },
    ),
    { numRuns: 3000 },
  );
});

const WORSE: readonly [keyof Notes, readonly (number | boolean | string)[]][] = [
  ['falls', [0, 1, 2, 5]],
  ['unsteady', [false, true]],
  ['worried', [false, true]],
  ['injury', [false, true]],
  ['longLie', [false, true]],
  ['blackout', [false, true]],
  ['scale', [1, 4, 5, 9]],
  ['phenotype', [0, 2, 3, 5]],
  ['speed', [1.4, 0.81, 0.8, 0.3, 'unable']],
  ['upAndGo', [8, 15, 15.1, 60, 'unable']],
  ['setting', ['community', 'residential_care']],
];

test('a worse answer never lowers the level or a bound, and a missing one lies between best and worst', () => {
  fc.assert(
    fc.property(notesArbitrary, fc.constantFrom(...WORSE), (notes, [key, scale]) => {
      const rows = scale.map((value): Notes => ({ ...notes, [key]: value })).filter((each) => !impossible(each));
      const reached = rows.map(reach);
      reached.forEach((levels, index) => {
        const better = reached[index - 1];
        if (better === undefined) return;
        expect(levels[0]).toBeGreaterThanOrEqual(better[0] ?? 0);
        expect(levels.at(-1)).toBeGreaterThanOrEqual(better.at(-1) ?? 0);
      });
      const best = reached[0];
      const worst = reached.at(-1);
      if (best === undefined || worst === undefined || key === 'setting') return;
      const blank = reach({ ...notes, [key]: undefined });
      expect(blank[0]).toBeGreaterThanOrEqual(best[0] ?? 0);
      expect(blank.at(-1)).toBeLessThanOrEqual(worst.at(-1) ?? 0);
    }),
    { numRuns: 3000 },
  );
});

/** All subsets, smallest first. */
function subsets<Value>(values: readonly Value[]): Value[][] {
  const all = Array.from({ length: 2 ** values.length }, (_, mask) =>
    values.filter((_value, index) => (mask >> index) % 2 === 1),
  );
  return all.sort((a, b) => a.length - b.length);
}

test('the missing items are the smallest set that settles the level whatever the answers', () => {
  fc.assert(
    fc.property(notesArbitrary, (notes) => {
      const readings = readItems(worldGuidelines, factsOf(notes));
      const solution = solve(worldGuidelines, readings);
      const open = readings.flatMap((reading, index) => (reading.possible.length > 1 ? [index] : []));
      const settles = (chosen: readonly number[]): boolean => {
        let fixed = [readings];
        for (const index of chosen)
          fixed = fixed.flatMap((each) =>
            (readings[index]?.possible ?? []).map((value) =>
              each.map((reading, at) => (at === index ? { ...reading, possible: [value] } : reading)),
            ),
          );
        return fixed.every((each) => solve(worldGuidelines, each).levels.length === 1);
      };
      const smallest = subsets(open).find(settles);
      expect([...solution.missing].sort((a, b) => a - b)).toEqual(smallest);
    }),
    { numRuns: 200 },
  );
});

test('nothing recorded: everything is asked, tests last', () => {
  const { level, at_least, at_most, missing } = placement(worldGuidelines, facts({ 'client.setting': 'community' }));
  expect({ level, at_least, at_most }).toEqual({ level: 'undetermined', at_least: 'low', at_most: 'high' });
  expect(missing).toEqual([
    'falls',
    'feels_unsteady',
    'worries_about_falling',
    'fall_injury',
    'long_lie',
    'blackout',
    'frailty',
    'gait_impaired',
  ]);
});
