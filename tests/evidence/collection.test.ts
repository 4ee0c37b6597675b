/** The collection as a whole: how much there is, that every number can be traced, that units and DOIs have valid form. */
import { UcumLhcUtils } from '@lhncbc/ucum-lhc';
import { describe, expect, test } from 'vitest';
import { collectionOf, TO_BE_READ } from '../../src/evidence/collection.ts';
import { STATUSES } from '../../src/evidence/schema/words.ts';
import { readingList } from '../../src/report/norms-book/html.ts';
import { testEvidence } from '../support/evidence.ts';

const evidence = testEvidence();
const entries = collectionOf(evidence);

describe('what the collection holds', () => {
  test('at least 180 entries of a paper, test and kind, for at least 20 tests', () => {
    expect(entries.length).toBeGreaterThanOrEqual(180);
    expect(new Set(entries.flatMap(({ test: id }) => (id === null ? [] : [id]))).size).toBeGreaterThanOrEqual(20);
  });

  test('one entry a paper, test and kind', () => {
    const keys = entries.map(({ source, test: id, kind }) => `${source} ${id} ${kind}`);
    expect(new Set(keys).size).toBe(keys.length);
  });

  test('every entry has a citation, a location, a status and rows', () => {
    for (const entry of entries) {
      expect(entry.citation, entry.source).not.toBe('');
      expect(entry.location.trim(), entry.source).not.toBe('');
      expect(STATUSES).toContain(entry.status);
      expect(entry.rows).toBeGreaterThan(0);
    }
  });

  test('no row stands in a table whose source has no entry in the bibliography', () => {
    for (const table of evidence.tables) {
      expect(evidence.sources[table.source], table.source).toBeDefined();
      for (const part of table.parts) expect(part.rows.length, `${table.source} ${part.id}`).toBeGreaterThan(0);
    }
  });

  test('no test or rule of the trade passes for a reading of a paper', () => {
    expect(entries.filter((entry) => entry.status === 'common-practice')).toEqual([]);
  });

  test('the list of what is still to be read names every source whose numbers were not read in the paper', () => {
    const open = new Set(entries.filter((entry) => TO_BE_READ.includes(entry.status)).map((entry) => entry.source));
    expect(readingList(entries).map((each) => each.source)).toEqual([...open].sort());
  });
});

describe('form of units and identifiers', () => {
  const ucum = UcumLhcUtils.getInstance();
  const units = [...new Set([...evidence.tests.map((each) => each.unit), ...evidence.tables.map((table) => table.unit)])];

  test.each(units)('unit %s is valid UCUM', (unit) => {
    expect(ucum.validateUnitString(unit).status).toBe('valid');
  });

  test('every DOI has the form of one, and stands for one paper', () => {
    for (const [id, { doi }] of Object.entries(evidence.sources))
      if (doi !== null) {
        expect(doi, id).toMatch(/^10\.\d{4,9}\/[-._;()/:a-zA-Z0-9<>]+$/);
        expect(doi, id).not.toMatch(/[.,;]$/);
      }
  });
});
