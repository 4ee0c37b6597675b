/** The FHIR bundle against the offline recipe; every rule has a broken sample that must fail it. */
import { describe, expect, test } from 'vitest';
import { renderFhir } from '../../src/report/fhir/bundle.ts';
import type { Bundle, Observation, RiskAssessment } from '../../src/report/fhir/r4.ts';
import { testEvidence } from '../support/evidence.ts';
import { faultsOf, resourcesOf } from './fhir-rules.ts';
import { EMPTY, EXAMPLES, example, URGENT, visitOf } from './visits.ts';

const bundleOf = (visit: ReturnType<typeof visitOf>): Bundle => JSON.parse(renderFhir([visit], testEvidence())) as Bundle;
const observations = (bundle: Bundle): Observation[] => resourcesOf<Observation>(bundle, 'Observation');
const riskOf = (bundle: Bundle): RiskAssessment => {
  const [found] = resourcesOf<RiskAssessment>(bundle, 'RiskAssessment');
  if (found === undefined) throw new Error('no RiskAssessment');
  return found;
};
const named = (bundle: Bundle, text: string): Observation => {
  const found = observations(bundle).find((each) => each.code.text === text);
  if (found === undefined) throw new Error(`no ${text}`);
  return found;
};
const codes = (observation: Observation): (string | undefined)[] =>
  (observation.interpretation ?? []).map((each) => each.coding?.[0]?.code);

describe('good bundles', () => {
  test.each([
    ...EXAMPLES.map((name) => [name, () => example(name)] as const),
    ['nothing asked', () => visitOf(EMPTY)] as const,
    ['a red flag', () => visitOf(URGENT)] as const,
  ])('%s passes', (_name, visit) => expect(faultsOf(bundleOf(visit()))).toEqual([]));

  test('the same visit gives the same bytes; every reference is in the bundle', () => {
    const [a, b] = [renderFhir([example('copd-74')], testEvidence()), renderFhir([example('copd-74')], testEvidence())];
    expect(a).toBe(b);
    const known = new Set((JSON.parse(a) as Bundle).entry?.map((entry) => entry.fullUrl));
    for (const [, reference] of a.matchAll(/"reference": "([^"]+)"/g)) expect(known).toContain(reference);
    expect(known.size).toBe((JSON.parse(a) as Bundle).entry?.length);
  });

  test('two visits of one client stand in one collection with one Patient', () => {
    const visit = example('steady-66');
    const later = { ...visit, assessment: { ...visit.assessment, assessed: '2026-05-19' } };
    const bundle = JSON.parse(renderFhir([visit, later], testEvidence())) as Bundle;
    expect(bundle.entry?.filter(({ resource }) => resource?.resourceType === 'Patient')).toHaveLength(1);
  });
});

describe('what it says', () => {
  const copd = bundleOf(example('copd-74'));
  const chair = bundleOf(example('chair-86'));
  const steady = bundleOf(example('steady-66'));

  test('a slow time is high, whatever is better; a met mark is positive; the limit is one-sided and says what it is', () => {
    const tug = named(copd, 'Timed up and go');
    expect(codes(tug)).toEqual(['H', 'POS']);
    expect(tug.valueQuantity).toMatchObject({ value: 12.8, code: 's' });
    expect(tug.referenceRange?.[0]?.low).toBeUndefined();
    expect(tug.referenceRange?.[0]?.text).toMatch(
      /^25th percentile of performance of both sexes 71-75; pondal-2008-tug.*Not a limit of normal\.$/,
    );
    expect(tug.code.coding?.map((each) => each.code)).toEqual(['timed-up-and-go', '89423-8']);
  });

  test('unable and declined are findings and gaps of their own', () => {
    expect(named(copd, 'Five times sit to stand').dataAbsentReason?.coding?.[0]?.code).toBe('not-performed');
    expect(named(chair, 'Grip strength, left').dataAbsentReason?.coding?.[0]?.code).toBe('asked-declined');
    expect(codes(named(chair, 'Grip strength, left'))).toEqual([]);
  });

  test('a stance held to the ceiling is at least that, off the scale', () => {
    const stance = named(steady, 'Tandem stance');
    expect(stance.valueQuantity).toMatchObject({ value: 10, comparator: '>=' });
    expect(codes(stance)).toContain('>');
  });

  test('trials are components; a best of three has no code of the first-trial test', () => {
    const stance = named(copd, 'Single-leg stance, eyes open, right');
    expect(stance.component?.filter((each) => each.code.text?.startsWith('Trial'))).toHaveLength(3);
    expect(stance.code.coding).toHaveLength(1);
  });

  test('the level is in words, with the path; no probability unless asked for; undetermined stays open', () => {
    expect(riskOf(copd).prediction?.[0]?.qualitativeRisk?.coding?.[0]?.code).toBe('low');
    expect(riskOf(copd).prediction?.[0]?.rationale).toContain('Are gait and balance impaired');
    expect(JSON.stringify(riskOf(copd))).not.toMatch(/"probability(Decimal|Range)/);
    const open = riskOf(bundleOf(visitOf(EMPTY)));
    expect(open.prediction?.[0]?.qualitativeRisk).toBeUndefined();
    expect(open.note?.[0]?.text).toContain('Missing:');
  });

  test('pseudonymous, nobody performed it, no profile is claimed, LOINC is acknowledged', () => {
    const text = JSON.stringify(copd);
    expect(text).not.toContain('performer');
    expect(text).not.toContain('birthDate');
    expect(text).not.toContain('"profile"');
    expect(text).toContain('Regenstrief');
  });

  test('unknown is asked and unknown; absent is absent', () => {
    expect(named(copd, 'osteoporosis').dataAbsentReason?.coding?.[0]?.code).toBe('asked-unknown');
    expect(observations(copd).some((each) => each.code.text === 'dizzy on standing')).toBe(false);
  });
});

describe('broken samples fail', () => {
  const broken: readonly (readonly [string, string, (bundle: Bundle) => void])[] = [
    ['a wrong status', 'shape', (bundle) => Object.assign(named(bundle, 'Timed up and go'), { status: 'done' })],
    ['an unknown property', 'shape', (bundle) => Object.assign(named(bundle, 'Timed up and go'), { colour: 'red' })],
    ['no code', 'shape', (bundle) => Object.assign(named(bundle, 'Timed up and go'), { code: undefined })],
    [
      'a range without limit or text',
      'obs-3',
      (bundle) => Object.assign(named(bundle, 'Timed up and go'), { referenceRange: [{ age: {} }] }),
    ],
    [
      'a value and a reason for none',
      'obs-6',
      (bundle) => Object.assign(named(bundle, 'Timed up and go'), { dataAbsentReason: { text: 'no' } }),
    ],
    [
      'a component with the code of the whole',
      'obs-7',
      (bundle) => {
        const tug = named(bundle, 'Timed up and go');
        Object.assign(tug, { component: [{ code: tug.code, valueString: 'x' }] });
      },
    ],
    [
      'a probability of 140',
      'ras-2',
      (bundle) => Object.assign(riskOf(bundle).prediction?.[0] ?? {}, { probabilityDecimal: 140 }),
    ],
    [
      'a probability that is no percentage',
      'ras-1',
      (bundle) => Object.assign(riskOf(bundle).prediction?.[0] ?? {}, { probabilityRange: { low: { value: 1, code: 'kg' } } }),
    ],
    ['two values', 'one-value', (bundle) => Object.assign(named(bundle, 'Timed up and go'), { valueString: 'fast' })],
    [
      'no value and no reason',
      'one-value',
      (bundle) => Object.assign(named(bundle, 'osteoporosis'), { dataAbsentReason: undefined }),
    ],
    [
      'an urgent interpretation',
      'interpretation',
      (bundle) => Object.assign(named(bundle, 'Timed up and go'), { interpretation: [{ coding: [{ code: 'HH' }] }] }),
    ],
    [
      'high and low at once',
      'interpretation',
      (bundle) =>
        Object.assign(named(bundle, 'Timed up and go'), {
          interpretation: [{ coding: [{ code: 'H' }] }, { coding: [{ code: 'L' }] }],
        }),
    ],
    [
      'a unit that is none',
      'unit: sec',
      (bundle) => Object.assign(named(bundle, 'Timed up and go').valueQuantity ?? {}, { code: 'sec' }),
    ],
    [
      'a range in another unit',
      'unit of a range',
      (bundle) => Object.assign(named(bundle, 'Timed up and go').referenceRange?.[0]?.high ?? {}, { code: 'min' }),
    ],
    [
      'a LOINC code of another test',
      'LOINC',
      (bundle) => named(bundle, 'Timed up and go').code.coding?.push({ system: 'http://loinc.org', code: '41957-2' }),
    ],
  ];

  test.each(broken)('%s', (_name, rule, spoil) => {
    const bundle = bundleOf(example('copd-74'));
    spoil(bundle);
    expect(faultsOf(JSON.parse(JSON.stringify(bundle)) as Bundle).join('\n')).toContain(rule);
  });
});
