/**
 * Every number and decision of 500 frozen visits, worked out a second time by code that shares nothing with `src/`: it was
 * written from norms/ and the written methods alone. `node tests/independent/run.mjs 10000` does the same with random clients.
 */
import { describe, expect, it } from 'vitest';
import { assess, loadEvidence, parseSession } from '../../src/index.ts';
import { differences, view } from './differences.mjs';
import { frozenSample, recomputed } from './freeze.mjs';

const evidence = loadEvidence();
const sample = frozenSample();
/** Every visit; a run of mutants, where each of thousands pays for this, looks at some of them only. */
const EVERY = Number(process.env.FOOTING_SAMPLE_EVERY ?? 1);
const looked = sample.filter((_, index) => index % EVERY === 0);

function assessed(visit: unknown): unknown {
  const file = 'frozen.yaml';
  const { session } = parseSession(JSON.stringify(visit), { file, catalogue: evidence, today: '2026-05-20' });
  return session === null ? 'refused on reading' : view(assess(session, evidence));
}

describe('a second implementation', () => {
  it('agrees in every field of 500 visits', () => {
    expect(sample).toHaveLength(500);
    const found = looked.flatMap(({ visit, hash }) =>
      differences(assessed(visit), recomputed(visit).view).map((each) => ({ visit: hash, ...each })),
    );
    expect(found.slice(0, 20)).toEqual([]);
  });

  it('gives what it gave when the sample was frozen (after a meant change of norms/: run.mjs --freeze)', () => {
    expect(looked.filter(({ visit, hash }) => recomputed(visit).hash !== hash).length).toBe(0);
  });

  it('would see a difference', () => {
    const [first] = sample;
    const second = sample[1];
    expect(differences(recomputed(first?.visit).view, recomputed(second?.visit).view).length).toBeGreaterThan(10);
  });
});
