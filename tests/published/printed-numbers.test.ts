/** Every printed cell stands in norms/, and every number of norms/ is a printed cell or a derived one with its reason. */
import { describe, expect, test } from 'vitest';
import { account, exceptions, nameOf, printedEntries, renames } from './extract.ts';
import { coveredBy, excuseOf, isCarriedInNumbers, matchAll, printedInWords } from './match.ts';
import { loadNormsItems, loadSources } from './norms-items.ts';

const items = loadNormsItems();
const results = matchAll(items);
const usedExcuses = new Set<object>();

describe('printed cells -> norms/', () => {
  test('every printed cell of a carried entry stands in norms/ or is excused with a reason', () => {
    const lost = results
      .filter(({ entry }) => isCarriedInNumbers(entry))
      .flatMap((result) =>
        result.missing.flatMap((cell) => {
          const excuse = excuseOf(result, cell.key);
          if (excuse === undefined)
            return [
              `${nameOf(result.entry)} row ${result.row.row}: ${cell.key} ${cell.value} (${result.best[0]?.place ?? 'no row'})`,
            ];
          usedExcuses.add(excuse);
          return [];
        }),
      );
    expect(lost).toEqual([]);
  });

  test('an entry with printed cells that is not carried has its reason in the accounting', () => {
    const silent = printedEntries.filter((entry) => {
      const line = account.find((each) => each.file === entry.file && each.id === entry.id);
      return line === undefined || (line.left_out === undefined && line.carried.length === 0);
    });
    expect(silent.map(nameOf)).toEqual([]);
  });

  test('the status of a row is the one with which it was read', () => {
    const wrong = results.flatMap((result) => {
      const { entry, row, best } = result;
      const printed = (row.status ?? entry.status).split(/[;, ]/)[0];
      if (best.length === 0 || best.some((item) => item.status === printed)) return [];
      const excuse = excuseOf(result, 'status');
      if (excuse === undefined) return [`${nameOf(entry)} row ${row.row}: ${printed}, ${best[0]?.place} has ${best[0]?.status}`];
      usedExcuses.add(excuse);
      return [];
    });
    expect(wrong).toEqual([]);
  });

  test('a mark is met on the printed side of the number', () => {
    const sides: Readonly<Record<string, string>> = { '<': 'below', '<=': 'at_most', '>': 'above', '>=': 'at_least' };
    const wrong = results.flatMap(({ entry, row, best }) => {
      const printed = /^(<=|>=|<|>)/.exec(String(row.strata.rule ?? ''))?.[1];
      if (printed === undefined || row.cells.cut === undefined) return [];
      return best
        .filter((item) => item.kind === 'cutpoint' && item.numbers.get('cut') === row.cells.cut)
        .filter((item) => item.tags.met_when !== sides[printed] && !isExactlyPointEight(item.numbers.get('cut'), item.test))
        .map((item) => `${nameOf(entry)} row ${row.row}: ${row.strata.rule}, ${item.place} is met ${item.tags.met_when}`);
    });
    expect(wrong).toEqual([]);
  });

  /** Sources differ on whether a speed of exactly 0.80 m/s is slow; it is counted as slow everywhere, and said. */
  const isExactlyPointEight = (cut: number | undefined, testId: string | null): boolean =>
    cut === 0.8 && testId === 'gait_speed_usual';
});

describe('norms/ -> printed cells', () => {
  test('every number is a printed cell, or derived with its reason', () => {
    const covered = new Set(results.flatMap(coveredBy));
    const unknown = items
      .flatMap((item) => [...item.numbers].map(([key, value]) => ({ item, key, value })))
      .filter(({ item, key, value }) => {
        if (covered.has(`${item.place} ${key}`) || printedInWords(item, key, value)) return false;
        const excuse = exceptions.derived.find(
          ({ place, keys }) =>
            (keys.includes('*') && item.place.startsWith(place)) || (place === item.place && keys.includes(key)),
        );
        if (excuse !== undefined) usedExcuses.add(excuse);
        return excuse === undefined;
      });
    expect(unknown.map(({ item, key, value }) => `${item.place} ${key} = ${value}`)).toEqual([]);
  });
});

test('every exception still excuses something, and every rename leads to an id in the bibliography', () => {
  const idle = [...exceptions.not_carried, ...exceptions.derived].filter((each) => !usedExcuses.has(each));
  expect(idle).toEqual([]);
  const sources = loadSources();
  expect(renames.flatMap(({ from, to }) => to.filter((id) => !sources.has(id)).map((id) => `${from} -> ${id}`))).toEqual([]);
});
