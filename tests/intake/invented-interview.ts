/** An invented catalogue for the interview: one test of every kind that its questions tell apart. */
import type { InterviewOptions } from '../../src/intake/interview/visit.ts';
import { definition } from './invented.ts';

const speed = { course: true, kind: 'speed', unit_text: 'm/s', unusual: { below: 0.3, above: 2, why: 'Rare' } } as const;
export const TESTS = [
  definition({ id: 'walk', name: 'Walk', short_name: 'Wk', headings: ['WLK'], unusual: { below: 5, above: 60, why: 'Rare' } }),
  definition({ id: 'gait_usual', name: 'Gait, usual', short_name: 'Gait', headings: [], ...speed }),
  definition({ id: 'gait_fast', name: 'Gait, fast', short_name: 'Fast', headings: [], ...speed }),
  definition({ id: 'leg', name: 'One leg', short_name: 'SLS', headings: [], sided: true, common_ceilings: [30, 45] }),
  definition({ id: 'tandem', name: 'Tandem', short_name: 'Tnd', headings: [], common_ceilings: [30], ceiling: 10 }),
  definition({ id: 'stance', name: 'Stance', short_name: 'Stc', headings: [], common_ceilings: [30] }),
  definition({
    id: 'score',
    name: 'Score',
    short_name: 'Scr',
    headings: [],
    unit_text: '',
    kind: 'score',
    unusual: { why: 'x' },
  }),
  definition({ id: 'both', name: 'Both', short_name: 'Bth', headings: [], derived_from: ['tandem', 'walk'] }),
];
export const catalogue = {
  tests: TESTS,
  fields: [
    {
      field: 'vitals.spo2_rest',
      name: 'Saturation',
      unit_text: '%',
      whole: false,
      impossible: { below: 40, above: 100, why: 'No' },
      unusual: { below: 85, why: 'Rare' },
    },
    {
      field: 'health.clinical_frailty_scale',
      name: 'Frailty',
      unit_text: '',
      whole: true,
      impossible: { below: 1, above: 9, why: 'No' },
    },
    { field: 'client.age', name: 'Age', unit_text: 'years', whole: true, impossible: { below: 18, above: 120, why: 'No' } },
  ],
};
export const options: InterviewOptions = { catalogue, today: '2026-05-20', all: false };
