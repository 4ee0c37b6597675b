/** A clinic's own norms through the library face: taken whole, or refused with places; the built-in evidence stays what it was. */
import { describe, expect, it } from 'vitest';
import { assess, loadEvidence, withNorms } from '../../src/index.ts';
import { recorded, session } from '../support/client.ts';
import { clinicFiles, TABLE_PATH } from '../support/clinic.ts';

const folder = (change: Parameters<typeof clinicFiles>[0] = {}) => ({ name: 'clinic', files: clinicFiles(change) });
const visit = session([recorded('timed_up_and_go', 11)]);
const sourceOf = (evidence: ReturnType<typeof loadEvidence>) =>
  assess(visit, evidence).tests[0]?.comparisons.find(({ primary }) => primary)?.source;

describe('withNorms', () => {
  it("puts the clinic's table first and names the folder", async () => {
    const before = loadEvidence();
    const builtIn = sourceOf(before);
    const { evidence, problems } = await withNorms(before, [folder()]);
    if (evidence === null) throw new Error(JSON.stringify(problems));
    expect(sourceOf(evidence)).toBe('own-clinic-2026');
    expect(evidence.folders).toEqual(['clinic']);
    expect(evidence.digest).not.toBe(before.digest);
    expect(sourceOf(before)).toBe(builtIn);
    expect(before.folders).toEqual([]);
  });

  it('gives null and the place of every fault', async () => {
    const found = await withNorms(loadEvidence(), [folder({ [TABLE_PATH]: 'source: [' })]);
    expect(found.evidence).toBeNull();
    expect(found.problems[0]).toMatchObject({ file: `clinic/${TABLE_PATH}`, line: 1 });
  });

  it('no folder changes nothing', async () => {
    const { evidence } = await withNorms(loadEvidence(), []);
    expect(evidence?.digest).toBe(loadEvidence().digest);
  });
});
