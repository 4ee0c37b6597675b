/** Every source entry that was read is accounted for: carried by norms files that are there, or left out with its reason. */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { account, evidenceIds, nameOf, renames, sourcesOf } from './extract.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const sorted = (names: readonly string[]): readonly string[] => [...names].sort();

describe('the accounting', () => {
  test('lists every entry once, and nothing else', () => {
    expect(sorted(account.map(nameOf))).toEqual(sorted(evidenceIds.map(nameOf)));
    expect(new Set(account.map(nameOf)).size).toBe(account.length);
  });

  test('every entry is carried or left out', () => {
    expect(account.filter(({ carried, left_out }) => carried.length === 0 && left_out === undefined)).toEqual([]);
  });

  test('every file that carries an entry is there and cites it', () => {
    const wrong = account.flatMap(({ file, id, carried }) =>
      carried.flatMap((path) => {
        if (!existsSync(`${root}${path}`)) return [`${file}/${id}: ${path} is not there`];
        if (USED_WITHOUT_CITATION.has(`${file}/${id}`)) return [];
        const text = readFileSync(`${root}${path}`, 'utf8');
        const cited = [id, ...sourcesOf(file, id)].some((source) => text.includes(source));
        return cited ? [] : [`${file}/${id}: ${path} does not name ${sourcesOf(file, id).join(' or ')}`];
      }),
    );
    expect(wrong).toEqual([]);
  });

  /** Entries that stand behind a rule of the trade, or agree with another source that is cited in their place. */
  const USED_WITHOUT_CITATION: ReadonlySet<string> = new Set([
    'exercise/jabfm-stress-contra',
    'exercise/leung-2021-oxygen-survey',
    'practice/falls-letter-model',
    'practice/practice-rules-common',
  ]);

  test('every reason is a sentence', () => {
    const reasons = account.flatMap(({ left_out }) => (left_out === undefined ? [] : [left_out]));
    expect(reasons.filter((reason) => !/^[A-Z0-9"'].{10,}[.)]$/s.test(reason))).toEqual([]);
  });
});

describe('norms/README.md', () => {
  const readme = existsSync(`${root}norms/README.md`) ? readFileSync(`${root}norms/README.md`, 'utf8') : '';
  const lines = new Set(readme.split('\n'));

  test('lists every entry that was left out, wholly or in part, with the reason', () => {
    const silent = account.filter(({ id, left_out }) => left_out !== undefined && !lines.has(`| \`${id}\` | ${left_out} |`));
    expect(silent.map(nameOf)).toEqual([]);
  });

  test('lists the renamed ids', () => {
    const silent = renames.filter(
      ({ from, to, why }) => !lines.has(`| \`${from}\` | ${to.map((id) => `\`${id}\``).join(', ')} | ${why} |`),
    );
    expect(silent.map(({ from }) => from)).toEqual([]);
  });
});
