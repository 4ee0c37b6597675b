/** Citations taken apart only where that is certain; BibTeX of every source. */
import { describe, expect, test } from 'vitest';
import { bibtexOf } from '../../src/report/bibliography/bibtex.ts';
import { cslItem } from '../../src/report/bibliography/csl.ts';
import { testEvidence } from '../support/evidence.ts';

const source = (citation: string, over: object = {}) => ({ citation, doi: null, open_access: 'unknown' as const, ...over });

describe('CSL-JSON', () => {
  test('the plain form is taken apart', () => {
    const citation =
      'Bohannon RW. Reference values for the Timed Up and Go Test: a descriptive meta-analysis. J Geriatr Phys Ther. 2006;29(2):64-68.';
    expect(cslItem('bohannon-2006-tug', source(citation, { doi: '10.1519/00139143-200608000-00004' }))).toEqual({
      id: 'bohannon-2006-tug',
      type: 'article-journal',
      title: 'Reference values for the Timed Up and Go Test: a descriptive meta-analysis',
      author: [{ family: 'Bohannon', given: 'RW' }],
      'container-title': 'J Geriatr Phys Ther',
      volume: '29',
      issue: '2',
      page: '64-68',
      issued: { 'date-parts': [[2006]] },
      DOI: '10.1519/00139143-200608000-00004',
    });
  });

  test('names of several words, a question as title, "et al" and a remark behind the pages', () => {
    const item = cslItem(
      'x',
      source(
        "de Souza e Silva CG, O'Neill S, Hébert-Losier K, et al. Can it be done? Br J Sports Med. 2022;56(17):975-980 (pages recalled).",
      ),
    );
    expect(item.author).toEqual([
      { family: 'de Souza e Silva', given: 'CG' },
      { family: "O'Neill", given: 'S' },
      { family: 'Hébert-Losier', given: 'K' },
      { literal: 'et al.' },
    ]);
    expect(item.title).toBe('Can it be done?');
    expect(item.note).toBe('pages recalled');
  });

  test.each([
    'Centers for Disease Control and Prevention. Assessment: 30-Second Chair Stand. 2017.',
    'Doctoral symposium abstract, 2020: balance confidence as a predictor of falls.',
    'Braun T, et al. BMC Geriatr. 2019.',
  ])('what has another form stands whole as the title: %s', (citation) => {
    expect(cslItem('x', source(citation))).toEqual({ id: 'x', type: 'document', title: citation.replace(/\.$/, '') });
  });
});

describe('BibTeX', () => {
  const { sources } = testEvidence();
  const all = bibtexOf(Object.entries(sources).map(([id, each]) => cslItem(id, each)));

  test('has one entry a source, under its id, in ASCII', () => {
    const labels = [...all.matchAll(/^@\w+\{([^,]+),$/gm)].map((match) => match[1]);
    expect(labels).toEqual(Object.keys(sources));
    expect(all).toMatch(/^[\x20-\x7e\t\n]+$/);
  });

  test('braces balance, so that one entry cannot swallow the next', () => {
    for (const entry of all.split(/\n(?=@)/)) {
      const bare = entry.replaceAll(/\\[{}]/g, '');
      expect(bare.split('{').length, entry.slice(0, 60)).toBe(bare.split('}').length);
    }
  });

  test('writes "and others" as BibTeX knows it', () => {
    expect(all).toContain(' and others}');
    expect(all).not.toContain('{et al.}');
  });
});
