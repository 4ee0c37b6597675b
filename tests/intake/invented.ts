/** An invented test of the catalogue, and findings as lines that a person can read. */
import type { TestDefinition } from '../../src/evidence/schema/catalogue.ts';
import type { Finding } from '../../src/intake/problems.ts';

export const definition = (over: Partial<TestDefinition> = {}): TestDefinition => ({
  id: 'walk',
  name: 'Walk',
  short_name: 'Walk',
  unit: 's',
  unit_text: 's',
  kind: 'time',
  better: 'lower',
  decimals: 1,
  whole: false,
  sided: false,
  ceiling: null,
  common_ceilings: [],
  trials: 'best',
  course: false,
  impossible: { below: 0, above: 100, why: 'No' },
  unusual: { above: 50, why: 'Rare' },
  protocol: 'x',
  protocol_basis: { own_rule: true, note: 'x', informed_by: [] },
  headings: ['Stroll'],
  derived_from: [],
  bands: [],
  ...over,
});

/** `place (key|value) code: message; hint` */
export const line = ({ path, at, code, message, hint }: Finding): string =>
  `${path.join('.')} (${at}) ${code}: ${message}; ${hint}`;
