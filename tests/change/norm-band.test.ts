/** The middle of the reference group in raw numbers: reading the table back gives the percentiles it was asked for. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { normBand } from '../../src/change/norm-band.ts';
import { client, recorded } from '../support/client.ts';
import { comparison, definition, result } from './invented.ts';
import { evidence, FIRST, visit } from './support.ts';

const { below_under, above_over } = evidence.defaults.standing;

function bandOf(test: string, value: number) {
  const session = visit(FIRST, [recorded(test, value)]);
  const found = assess(session, evidence).tests.find((each) => each.test === test) ?? null;
  const known = evidence.testById.get(test);
  if (known === undefined) throw new Error(test);
  return normBand(evidence, known, found, session.client);
}
const percentileAt = (test: string, value: number) =>
  assess(visit(FIRST, [recorded(test, value)]), evidence)
    .tests.find((each) => each.test === test)
    ?.comparisons.find(({ primary }) => primary)?.percentile;

describe('the ends', () => {
  it.each(['timed_up_and_go', 'gait_speed_usual'])('of %s score as the middle half, low before high', (test) => {
    const found = bandOf(test, test === 'timed_up_and_go' ? 10 : 1.1);
    const [low, high] = [found?.low ?? Number.NaN, found?.high ?? Number.NaN];
    expect(low).toBeLessThan(high);
    expect(found?.centre).toBeGreaterThan(low);
    expect(found?.centre).toBeLessThan(high);
    const [worse, better] = test === 'timed_up_and_go' ? [high, low] : [low, high];
    expect(percentileAt(test, worse)).toBeCloseTo(below_under, -1);
    expect(percentileAt(test, better)).toBeCloseTo(above_over, -1);
  });
});

describe('without a row', () => {
  const walk = definition();
  it('there is none where no table places the client', () => {
    expect(normBand(evidence, walk, null, client())).toBeNull();
    expect(normBand(evidence, walk, result(12), client())).toBeNull();
    expect(normBand(evidence, walk, result(12, { comparisons: [comparison({ primary: false })] }), client())).toBeNull();
  });
  it('only the centre where the table is not at hand or gives no percentile', () => {
    const base = { centre: 11, band: comparison().band, source: 'table-a', status: 'abstract' };
    expect(normBand(evidence, walk, result(12, { comparisons: [comparison()] }), client())).toEqual({
      ...base,
      low: null,
      high: null,
    });
    const session = visit(FIRST, [recorded('timed_up_and_go', 10)]);
    const found = assess(session, evidence).tests.find((each) => each.test === 'timed_up_and_go');
    const known = evidence.testById.get('timed_up_and_go');
    if (found === undefined || known === undefined) throw new Error('no result');
    const silent = { ...found, comparisons: found.comparisons.map((each) => ({ ...each, percentile: null })) };
    expect(normBand(evidence, known, silent, session.client)).toMatchObject({ low: null, high: null });
  });
});
