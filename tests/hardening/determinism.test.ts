/**
 * The same input gives the same bytes, whatever the language, time zone and width of the terminal's settings; no date shifts.
 * Processes of the built program; `node tests/hardening/nodes.mjs` compares Node majors the same way.
 */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { main } from '../../src/cli/main.ts';
import { exampleFiles } from '../support/run.ts';
import { memoryIo } from './memory-io.ts';
import { digests } from './same-bytes.mjs';

const at = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));
const bin = process.env.FOOTING_BIN ?? at('bin/footing.js');

/** Several at once: where one of them changes a byte, the line that differs tells which. */
const SETTINGS: readonly (readonly [string, Readonly<Record<string, string>>])[] = [
  [
    'Turkish, whose i has two forms; the far west of the calendar; a narrow terminal',
    { LANG: 'tr_TR.UTF-8', LC_ALL: 'tr_TR.UTF-8', LANGUAGE: 'tr', TZ: 'Etc/GMT+12', COLUMNS: '40' },
  ],
  [
    'German, with a decimal comma; the far east of the calendar; a wide terminal',
    { LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8', LC_NUMERIC: 'de_DE.UTF-8', TZ: 'Pacific/Kiritimati', COLUMNS: '250' },
  ],
  [
    'Arabic, with other digits; half an hour of summer time; no colour',
    { LANG: 'ar_EG.UTF-8', LC_ALL: 'ar_EG.UTF-8', TZ: 'Australia/Lord_Howe', TERM: 'dumb', NO_COLOR: '1' },
  ],
  ['nothing set at all', {}],
];

describe.skipIf(!existsSync(bin) || !existsSync(at('dist')))('same bytes', () => {
  const usual = digests(bin, { env: { TZ: 'UTC', LANG: 'en_GB.UTF-8' } });

  it('every command line ends as it should', () => {
    expect(usual.filter((line) => !/: [01] [0-9a-f]{64}$/.test(line))).toEqual([]);
  });

  it.each(SETTINGS)('%s', (_name, env) => {
    expect(digests(bin, { env })).toEqual(usual);
  });
});

describe('dates', () => {
  const ZONES = ['Etc/GMT+12', 'America/St_Johns', 'UTC', 'Pacific/Apia', 'Pacific/Kiritimati'];
  const visit = exampleFiles()['examples/copd-74.yaml'] ?? '';

  it('the day of a visit is the day that was written, at both ends of a year and over a leap day', async () => {
    for (const day of ['2024-02-29', '2025-12-31', '2026-01-01', '2026-03-29']) {
      const io = memoryIo({ files: { 'v.yaml': visit.replace('2026-05-11', day) } });
      expect(await main(['score', 'v.yaml', '--format', 'json'], io)).toBe(0);
      expect(io.out()).toContain(`"assessed": "${day}"`);
    }
  });

  it('age is counted in calendar days, wherever the computer stands', async () => {
    const before = process.env.TZ;
    try {
      for (const zone of ZONES) {
        process.env.TZ = zone;
        const ages = [];
        for (const born of ['1952-05-10', '1952-05-11', '1952-05-12']) {
          const io = memoryIo({ files: { 'v.yaml': visit.replace('age: 74', `born: ${born}`) } });
          await main(['score', 'v.yaml', '--format', 'json'], io);
          ages.push(/"age": (\d+)/.exec(io.out())?.[1]);
        }
        expect(ages, zone).toEqual(['74', '74', '73']);
      }
    } finally {
      if (before === undefined) delete process.env.TZ;
      else process.env.TZ = before;
    }
  });
});
