/** The mean reach of people who do not live in the community is shown to such clients, and never makes a short reach look usual. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Client } from '../../src/session.ts';
import { recorded, session } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

const reach = (setting: Client['setting']) =>
  assess(session([recorded('functional_reach', 16)], {}, { setting }), testEvidence()).tests[0]?.comparisons ?? [];
const rosa = (setting: Client['setting']) => reach(setting).filter(({ source }) => source === 'rosa-2019');

describe('functional reach, rosa-2019', () => {
  it.each(['residential_care', 'hospital'] as const)('%s: the mean of 15.4 cm, for orientation', (setting) => {
    // Rosa 2019, abstract: "non-community-dwelling" 15.4 cm.
    expect(rosa(setting)).toHaveLength(1);
    expect(rosa(setting)[0]).toMatchObject({
      part: 'not_community',
      expected: 15.4,
      primary: false,
      standing: null,
      percentile: null,
    });
    expect(rosa(setting)[0]?.no_standing_because).toMatch(/at risk|orientation/);
    expect(reach(setting).find(({ primary }) => primary)?.source).toBe('newton-2001');
  });

  it('community: the pooled mean of 26.6 cm', () => {
    expect(rosa('community').map(({ expected }) => expected)).toEqual([26.6]);
  });
});
