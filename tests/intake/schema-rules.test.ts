/** The schema for editors, key by key: what it accepts is what the reader reads, and every key says what it means. */
import { describe, expect, it } from 'vitest';
import { sessionJsonSchema, sessionSchema } from '../../src/intake/session-schema.ts';
import { definition } from './invented.ts';

const TESTS = [
  definition({ id: 'walk', name: 'Walk', unit_text: 's', protocol: 'Walk there.' }),
  definition({ id: 'leg', name: 'Leg', sided: true }),
  definition({ id: 'gait', name: 'Gait', course: true, unit_text: 'm/s' }),
  definition({ id: 'score', name: 'Score', unit_text: '' }),
];
const CLIENT = { ref: 'M-1', sex: 'female', age: 74 };
const visit = (more: object = {}) => ({ format: 1, assessed: '2026-05-11', client: CLIENT, ...more });
/** Made anew for every test, and once only: making it costs more than asking it. */
function checks() {
  const schema = sessionSchema(TESTS);
  const accepts = (value: unknown): boolean => schema.safeParse(value).success;
  return {
    accepts,
    group: (name: string, key: string, value: unknown): boolean => accepts(visit({ [name]: { [key]: value } })),
    result: (id: string, value: unknown): boolean => accepts(visit({ tests: { [id]: value } })),
  };
}

describe('a visit', () => {
  it('needs format, day and client, and knows no other keys', () => {
    const { accepts } = checks();
    expect(accepts(visit())).toBe(true);
    for (const key of ['format', 'assessed', 'client']) expect(accepts({ ...visit(), [key]: undefined })).toBe(false);
    expect(accepts(visit({ more: 1 }))).toBe(false);
    expect(accepts(visit({ format: 2 }))).toBe(false);
    expect(accepts(visit({ client: { ...CLIENT, name: 'x' } }))).toBe(false);
    expect(accepts(visit({ client: { age: 74 } }))).toBe(false);
    expect(accepts(visit({ assessed: '2026-02-30' }))).toBe(false);
  });
  it('an empty group is as good as none', () => {
    const { accepts, group } = checks();
    for (const name of [
      'history',
      'health',
      'vitals',
      'redflags',
      'medicines',
      'since_last',
      'clearance',
      'risk',
      'plan',
      'tests',
    ])
      expect(accepts(visit({ [name]: null })), name).toBe(true);
    expect(group('history', 'feels_unsteady', null)).toBe(true);
  });
});

describe('kinds of values', () => {
  it.each<[string, string, readonly unknown[], readonly unknown[]]>([
    ['history', 'feels_unsteady', ['yes', 'No', 'UNKNOWN', true], ['maybe', 1]],
    ['history', 'falls_past_year', [0, 'several'], ['many', true]],
    ['health', 'lung_condition', ['copd', 'none'], ['COPD', 'flu']],
    ['health', 'clinical_frailty_scale', [4], ['4']],
    ['health', 'oral_steroid', ['no', true, {}, { daily_mg: 5, months: 3 }], ['some', { dose: 5 }, 5]],
    ['health', 'recent_surgery', ['yes', false, '2026-05-11'], ['soon', '2026-02-30']],
    ['vitals', 'bp_lying', ['138/78'], ['138-78', 138]],
    ['vitals', 'spo2_target', [88, '88-92'], ['about 90', true]],
  ])('%s.%s', (name, key, right, wrong) => {
    const { group } = checks();
    for (const value of right) expect(group(name, key, value), JSON.stringify(value)).toBe(true);
    for (const value of wrong) expect(group(name, key, value), JSON.stringify(value)).toBe(false);
  });
  it('texts, references and countries', () => {
    const { accepts } = checks();
    expect(accepts(visit({ assessor: 'A. Physio', goals: ['walk', 'garden'] }))).toBe(true);
    expect(accepts(visit({ goals: 'walk' }))).toBe(true);
    for (const wrong of [
      { assessor: '' },
      { assessor: 5 },
      { assessor: 'x'.repeat(501) },
      { goals: [] },
      { goals: [5] },
      { goals: 5 },
    ])
      expect(accepts(visit(wrong)), JSON.stringify(wrong)).toBe(false);
    const client = (more: object) => accepts(visit({ client: { ...CLIENT, ...more } }));
    expect(client({ ref: 7, country: 'AU' })).toBe(true);
    for (const wrong of [{ ref: ' ' }, { ref: 'x'.repeat(81) }, { ref: true }, { country: 'au' }, { born: 'x' }])
      expect(client(wrong)).toBe(false);
  });
});

describe('records', () => {
  const one = { by: 'A', date: '2026-05-12', for: 'blackout' };
  it('clearances, a level, a plan', () => {
    const { accepts } = checks();
    for (const right of [{ clearance: one }, { clearance: [one, one] }, { risk: { level: 'high', reason: 'x' } }])
      expect(accepts(visit(right))).toBe(true);
    for (const wrong of [
      { clearance: {} },
      { clearance: [] },
      { clearance: { ...one, more: 1 } },
      { risk: { level: 'high' } },
      { risk: 5 },
    ])
      expect(accepts(visit(wrong)), JSON.stringify(wrong)).toBe(false);
    expect(accepts(visit({ plan: { days: 3, choose: ['squat'], exercises: { squat: { level: 2, leave_out: 'no' } } } }))).toBe(
      true,
    );
    expect(accepts(visit({ plan: { exercises: null } }))).toBe(true);
    for (const wrong of [{ more: 1 }, { days: 'x' }, { exercises: { squat: { more: 1 } } }, { exercises: { squat: 5 } }])
      expect(accepts(visit({ plan: wrong })), JSON.stringify(wrong)).toBe(false);
  });
});

describe('results', () => {
  it('in every form; no other keys', () => {
    const { result } = checks();
    for (const right of [
      12,
      [12, 13],
      null,
      { value: 12, aid: 'stick', ceiling: 30 },
      { trials: [12] },
      { unable: 'sore' },
      { unsafe: 'x', why: 'balance' },
    ])
      expect(result('walk', right), JSON.stringify(right)).toBe(true);
    for (const wrong of [
      '12',
      [],
      ['x'],
      true,
      { more: 1 },
      { time: 4, distance: 4 },
      { right: 12 },
      { unsafe: 'x', why: 'wet' },
    ])
      expect(result('walk', wrong), JSON.stringify(wrong)).toBe(false);
    expect(result('run', 12)).toBe(false);
  });
  it('sides only of tests that have them, time and distance only of walks', () => {
    const { result } = checks();
    for (const right of [
      12,
      { right: 12, left: [3, 4] },
      { left: { unable: 'x' }, ceiling: 30, aid: 'rail', note: 'x' },
      { right: null },
    ])
      expect(result('leg', right), JSON.stringify(right)).toBe(true);
    for (const wrong of [{ right: 'x' }, { right: 12, value: 3 }, { right: 12, more: 1 }])
      expect(result('leg', wrong)).toBe(false);
    for (const right of [
      0.9,
      { time: 4, distance: 4, start: 'moving' },
      { time: [4, 5], distance: 4 },
      { value: 0.9, distance: 6 },
    ])
      expect(result('gait', right), JSON.stringify(right)).toBe(true);
    for (const wrong of [{ time: [], distance: 4 }, { time: 4, distance: 4, start: 'running' }, { right: 4 }])
      expect(result('gait', wrong)).toBe(false);
  });
});

describe('as a JSON Schema', () => {
  it('of draft 7, with a title and a description of everything', () => {
    const schema = sessionJsonSchema(TESTS) as Record<string, never>;
    expect(schema).toMatchObject({
      $schema: 'http://json-schema.org/draft-07/schema#',
      title: 'A visit, as footing reads it',
      description: 'One file a visit; format, assessed and client are needed.',
      required: ['format', 'assessed', 'client'],
      additionalProperties: false,
    });
    const text = JSON.stringify(schema);
    for (const title of ['Walk (s)', 'Gait (m/s)', '"Score"', 'Falls past year', 'Clinical frailty scale', '"Ref"'])
      expect(text).toContain(title);
    expect(text).toContain('Walk there.');
    expect(text).toContain('Day of the visit');
    // every form of a result is defined once
    expect(text.split('"Where the watch was stopped"').length - 1).toBeLessThan(8);
  });
});
