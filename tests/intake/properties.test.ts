/** What must hold for any file. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { stringify } from 'yaml';
import { FIELD_GROUPS, formatProblem, type Keys, parseSession } from '../../src/intake/index.ts';
import { catalogue, TODAY } from './catalogue.ts';

const parse = (text: string) => parseSession(text, { file: 'visit.yaml', catalogue, today: TODAY });

const answer = fc.constantFrom('yes', 'no', 'unknown', true, false, null);

function groupArbitrary(keys: Keys): fc.Arbitrary<Record<string, unknown>> {
  const answers = Object.entries(keys).filter(([, key]) => key.leaf.kind === 'answer');
  return fc.record(Object.fromEntries(answers.map(([name]) => [name, answer])), { requiredKeys: [] });
}

const result = (low: number, high: number) => fc.integer({ min: low * 10, max: high * 10 }).map((tenths) => tenths / 10);

const sessionArbitrary = fc.record({
  format: fc.constant(1),
  client: fc.record({
    ref: fc.constantFrom('A-1', 'x'),
    sex: fc.constantFrom('female', 'male', 'not recorded'),
    age: fc.integer({ min: 18, max: 120 }),
  }),
  assessed: fc.constantFrom('2026-05-11', '2025-02-28'),
  history: groupArbitrary(FIELD_GROUPS.history),
  health: groupArbitrary(FIELD_GROUPS.health),
  redflags: groupArbitrary(FIELD_GROUPS.redflags),
  tests: fc.record(
    {
      timed_up_and_go: fc.oneof(
        result(3, 600),
        fc.array(result(3, 60), { minLength: 1, maxLength: 3 }),
        fc.constant({ unable: 'fell back' }),
      ),
      tandem_stance: result(0, 10),
      single_leg_stance_eyes_open: fc.record(
        { right: result(0, 45), left: fc.array(result(0, 45), { minLength: 1, maxLength: 3 }), ceiling: fc.constant(45) },
        { requiredKeys: ['right'] },
      ),
      gait_speed_usual: fc.record(
        { time: result(3, 60), distance: fc.constantFrom(4, 6), start: fc.constantFrom('standing', 'moving') },
        { requiredKeys: ['time', 'distance'] },
      ),
    },
    { requiredKeys: [] },
  ),
});

function reversed(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, inner]) => [key, reversed(inner)]),
  );
}

describe('any text', () => {
  test('gives a result, never an exception; a refusal always says where and why', () => {
    const alphabet = fc.constantFrom(
      ...'{}[]:,#&*!|>-?%@`"\' \n\t\r0123456789abcyesno.<~\uFEFF\u0000\u2028'.split(''),
      'tests',
      'client',
      'format: 1\n',
      '  ',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary' }),
          fc.array(alphabet, { maxLength: 60 }).map((parts) => parts.join('')),
        ),
        (text) => {
          const { session, problems } = parse(text);
          if (session === null) expect(problems.some((problem) => problem.severity === 'error')).toBe(true);
          for (const problem of problems) {
            expect(problem.line).toBeGreaterThanOrEqual(1);
            expect(problem.column).toBeGreaterThanOrEqual(1);
            expect(formatProblem(problem)).not.toContain('\n');
          }
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('any value of any type in any place is judged, not thrown on', () => {
    fc.assert(
      fc.property(
        sessionArbitrary,
        fc.constantFrom('client', 'history', 'tests', 'health', 'vitals'),
        fc.anything({ withNullPrototype: false }),
        fc.string(),
        (session, group, value, key) => {
          const tree = { ...session, [group]: { ...(session as unknown as Record<string, object>)[group], [key]: value, value } };
          expect(() => parse(stringify(JSON.parse(JSON.stringify(tree) ?? 'null')))).not.toThrow();
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('a right session', () => {
  test('is accepted, and the order of its keys does not matter', () => {
    fc.assert(
      fc.property(sessionArbitrary, (tree) => {
        const one = parse(stringify(tree));
        const other = parse(stringify(reversed(tree)));
        expect(one.problems.filter(({ severity }) => severity === 'error').map(formatProblem)).toEqual([]);
        expect(JSON.stringify(other.session)).toBe(JSON.stringify(one.session));
      }),
    );
  });

  test('is the same in JSON, with Windows line ends and with a byte order mark', () => {
    fc.assert(
      fc.property(sessionArbitrary, (tree) => {
        const wanted = parse(stringify(tree)).session;
        // Indented: a list such as [4,2] without a blank is kept with a note, since it may be a decimal comma.
        expect(parse(JSON.stringify(tree, null, 1)).session).toEqual(wanted);
        expect(parse(`\uFEFF${stringify(tree).replaceAll('\n', '\r\n')}`).session).toEqual(wanted);
      }),
    );
  });

  test('says nothing of what was not recorded', () => {
    fc.assert(
      fc.property(sessionArbitrary, (tree) => {
        const { session } = parse(stringify(tree));
        const recorded = Object.values(tree.history).filter((value) => value !== null).length;
        expect(Object.keys(session?.fields ?? {}).filter((field) => field.startsWith('history.'))).toHaveLength(recorded);
      }),
    );
  });
});
