/** `footing explain`: the row, the formula, the source, and what would change a statement. */
import { describe, expect, it } from 'vitest';
import { footing } from '../support/run.ts';
import { joined } from './support.ts';

const explain = async (...argv: string[]) => footing(['explain', 'examples/copd-74.yaml', ...argv]);

describe('footing explain', () => {
  it('a test: row, formula with this client, source with DOI, marks and turning points', async () => {
    const { stdout, code } = await explain('timed_up_and_go');
    const text = joined(stdout);
    expect(code).toBe(0);
    // Pondal and del Ser 2008: both sexes 71-75, mean 9.5 s, SD 2.5 s.
    for (const words of [
      'z = -(12.8 - 9.5) / 2.5 = -1.32',
      'doi:10.1519/00139143-200831020-00004',
      '"12 s or more" is met',
      'usual starts at',
    ])
      expect(text).toContain(words);
  });
  it('the level: every step, and which single answers would change it', async () => {
    const text = joined((await explain('level')).stdout);
    expect(text).toContain('if fall injury were yes (now no): High risk');
    expect(text).toContain('if falls past year were 2 or more (now 1): High risk');
  });
  it('an exercise, a factor, both sides of a test by hyphens, a source', async () => {
    expect(joined((await explain('squat')).stdout)).toContain('Statement Squat: seated variant');
    expect((await explain('long_term_steroid')).stdout).toContain('fracture-risk');
    expect((await explain('single-leg-stance-eyes-open')).stdout).toMatch(/RIGHT[\s\S]*LEFT/);
    expect((await explain('pondal-2008-tug')).stdout).toContain('Pondal M');
  });
  it('lists everything without a name, and suggests the nearest', async () => {
    const all = await explain();
    expect(all.stdout).toMatch(/^level +Level: Low risk$/m);
    const wrong = await explain('timed_up_and_goo');
    expect([wrong.code, wrong.stdout]).toEqual([2, '']);
    expect(wrong.stderr).toContain('did you mean timed_up_and_go?');
  });
});
