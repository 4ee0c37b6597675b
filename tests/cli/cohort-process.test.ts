/** A cohort as a process of the built program: killed, its reader gone, its disk full, on several cores, as a filter under GNU parallel. */
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { bigCohort, type Ended, inFolder, programOf, started } from '../support/big-cohort.ts';
import { spawned } from '../support/run.ts';

/** That a column is passed on unread is said as ever. */
const withoutNotes = (said: string): string => said.replace(/^.*: note: .*\n/gm, '');

const ROWS = 100_000;
const [program, ...first] = programOf(spawned ?? 'footing.js');
const run = (argv: readonly string[], cwd: string) => started(program, [...first, ...argv], cwd);
const shell = (line: string, cwd: string): Promise<Ended> => started('bash', ['-c', line], cwd).ended;
/** For a shell. */
const call = [program, ...first].map((word) => `'${word}'`).join(' ');

const remnantsIn = (folder: string): string[] => readdirSync(folder).filter((name) => name.startsWith('.footing-'));

/** Until a temporary file holds something; fails where the run is over before. */
async function halfWritten(folder: string): Promise<string> {
  for (let tries = 0; tries < 3000; tries += 1) {
    const [name] = remnantsIn(folder);
    if (name !== undefined && (statSync(join(folder, name), { throwIfNoEntry: false })?.size ?? 0) > 0) return name;
    await pause(2);
  }
  throw new Error('no half-written file was seen');
}

describe.runIf(spawned !== undefined)('a killed run', () => {
  it.each([['1'], ['2']])('leaves no half output, and the next run clears up (%s cores)', { timeout: 240_000 }, (cores) =>
    inFolder(async (folder) => {
      writeFileSync(join(folder, 'in.csv'), bigCohort(ROWS));
      writeFileSync(join(folder, 'out.csv'), 'old\n');
      const argv = ['cohort', 'in.csv', '-o', 'out.csv', '--workers', cores];
      const { child, ended } = run(argv, folder);
      const remnant = await halfWritten(folder);
      child.kill('SIGKILL');
      expect((await ended).signal).toBe('SIGKILL');
      expect(readFileSync(join(folder, 'out.csv'), 'utf8')).toBe('old\n');
      expect(remnantsIn(folder)).toEqual([remnant]);
      if (process.platform !== 'win32') expect(statSync(join(folder, remnant)).mode & 0o777).toBe(0o600);
      const again = await run(argv, folder).ended;
      expect(again.code, again.stderr).toBe(1);
      expect(again.stderr).toContain(`${ROWS} rows read, `);
      expect(readdirSync(folder).sort()).toEqual(['in.csv', 'out.csv']);
      expect(readFileSync(join(folder, 'out.csv'), 'utf8').endsWith('\n')).toBe(true);
    }),
  );

  it('clears up itself where it is asked to end', { timeout: 120_000 }, () =>
    inFolder(async (folder) => {
      writeFileSync(join(folder, 'in.csv'), bigCohort(ROWS));
      const { child, ended } = run(['cohort', 'in.csv', '-o', 'out.csv'], folder);
      await halfWritten(folder);
      child.kill('SIGTERM');
      expect((await ended).signal).toBe('SIGTERM');
      expect(readdirSync(folder)).toEqual(['in.csv']);
    }),
  );
});

describe.runIf(spawned !== undefined)('a reader that closes early', () => {
  it.each([['1'], ['2']])('ends the run with one line, and no file is half written (%s cores)', { timeout: 120_000 }, (cores) =>
    inFolder(async (folder) => {
      writeFileSync(join(folder, 'in.csv'), bigCohort(ROWS));
      const options = `in.csv --rejects r.csv --workers ${cores}`;
      const { stdout, stderr } = await shell(`${call} cohort ${options} | head -3; echo "\${PIPESTATUS[0]}"`, folder);
      const lines = stdout.trimEnd().split('\n');
      expect(lines[0]).toMatch(/^ref,sex,age,.*,risk_level,missing,notes$/);
      expect(lines.at(-1)).toBe('2');
      expect(lines.length).toBe(4);
      expect(withoutNotes(stderr)).toBe(
        'footing: cannot write standard output: its reader has closed it; nothing of this run is left in any file\n',
      );
      expect(readdirSync(folder)).toEqual(['in.csv']);
    }),
  );
});

/** A file system of its own of one megabyte; null where none can be mounted here. */
function smallDisk(folder: string): { readonly path: string; readonly release: () => void } | null {
  const path = join(folder, 'disk');
  mkdirSync(path);
  if (spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', path]).status !== 0) return null;
  return { path, release: () => void spawnSync('umount', [path]) };
}

describe.runIf(spawned !== undefined)('a full disk', () => {
  it.each([['1'], ['2']])('keeps the old file, leaves nothing else and is said (%s cores)', { timeout: 120_000 }, (cores) =>
    inFolder(async (folder) => {
      writeFileSync(join(folder, 'in.csv'), bigCohort(ROWS));
      const disk = smallDisk(folder);
      if (disk === null) return void console.log('skipped: no small disk can be mounted here (tmpfs needs the rights of root)');
      try {
        writeFileSync(join(disk.path, 'out.csv'), 'old\n');
        const argv = ['cohort', 'in.csv', '-o', 'disk/out.csv', '--rejects', 'r.csv', '--workers', cores];
        const { code, stderr } = await run(argv, folder).ended;
        expect(withoutNotes(stderr)).toBe(
          'footing: cannot write disk/out.csv: the disk is full; nothing of this run is left in any file\n',
        );
        expect(code).toBe(2);
        expect(readdirSync(disk.path)).toEqual(['out.csv']);
        expect(readFileSync(join(disk.path, 'out.csv'), 'utf8')).toBe('old\n');
        expect(readdirSync(folder).sort()).toEqual(['disk', 'in.csv']);
      } finally {
        disk.release();
      }
    }),
  );

  it('behind > is said too, by every command', { timeout: 120_000 }, () =>
    inFolder(async (folder) => {
      if (!existsSync('/dev/full')) return void console.log('skipped: there is no /dev/full here');
      writeFileSync(join(folder, 'in.csv'), bigCohort(2000));
      for (const argv of ['cohort in.csv', 'cohort in.csv --rejects r.csv --workers 2', 'norms list']) {
        const { code, stderr } = await shell(`${call} ${argv} > /dev/full`, folder);
        expect(stderr.split('\n').filter((line) => line.startsWith('footing:'))).toHaveLength(1);
        expect(stderr).toContain('footing: cannot write standard output: the disk is full');
        expect(stderr).not.toMatch(/\n\s+at /);
        expect(code).toBe(2);
      }
      expect(readdirSync(folder)).toEqual(['in.csv']);
    }),
  );
});

describe.runIf(spawned !== undefined)('a file that cannot be read', () => {
  it('is named, and nothing is left', { timeout: 60_000 }, () =>
    inFolder(async (folder) => {
      const broken = existsSync('/proc/self/mem') ? [['/proc/self/mem', 'the disk could not be read or written']] : [];
      for (const [path = '', why = ''] of [['none.csv', 'there is no such file or folder'], ...broken]) {
        const { code, stderr } = await run(['cohort', path, '-o', 'out.csv'], folder).ended;
        expect(stderr).toContain(`footing: cannot read ${path}: ${why}`);
        expect(code).toBe(2);
      }
      expect(readdirSync(folder)).toEqual([]);
    }),
  );
});

describe.runIf(spawned !== undefined)('several cores', () => {
  it('give the same bytes as one: rows, refused rows, summary, messages', { timeout: 240_000 }, () =>
    inFolder(async (folder) => {
      writeFileSync(join(folder, 'in.csv'), bigCohort(20_000));
      const files = async (cores: string, format: string): Promise<readonly (Buffer | string | null)[]> => {
        const outputs = ['-o', 'o', '--rejects', 'r', '--summary', 's.json', '--format', format, '--workers', cores];
        const { code, stderr } = await run(['cohort', 'in.csv', ...outputs], folder).ended;
        expect(code).toBe(1);
        return [stderr, ...['o', 'r', 's.json'].map((name) => readFileSync(join(folder, name)))];
      };
      for (const format of ['csv', 'ndjson']) {
        const one = await files('1', format);
        expect(one[1]?.length).toBeGreaterThan(1_000_000);
        for (const cores of format === 'csv' ? ['2', '3'] : ['2']) {
          const many = await files(cores, format);
          expect(many.map((each, index) => Buffer.from(each ?? '').equals(Buffer.from(one[index] ?? '')))).toEqual(
            one.map(() => true),
          );
        }
      }
    }),
  );
});

const parallel = spawnSync('parallel', ['--version']).status === 0;
if (spawned !== undefined && !parallel) console.log('skipped: filters under GNU parallel (its program parallel is not here)');

describe.runIf(spawned !== undefined && parallel)('as a filter under GNU parallel', () => {
  const split = 'parallel --will-cite --pipe --keep-order --block 200k -j 2';
  const compare = (piped: string, alone: string): Promise<void> =>
    inFolder(async (folder) => {
      writeFileSync(join(folder, 'in.csv'), bigCohort(20_000, { quoted: false }));
      writeFileSync(join(folder, 'header'), readFileSync(join(folder, 'in.csv'), 'utf8').split('\n')[0] ?? '');
      const [many, one] = [await shell(piped, folder), await shell(alone, folder)];
      expect(one.stdout.length).toBeGreaterThan(1_000_000);
      expect(many.stdout === one.stdout, many.stderr.slice(0, 500)).toBe(true);
      const rows = (text: string): number =>
        [...text.matchAll(/: (\d+) rows? read/g)].reduce((sum, found) => sum + Number(found[1]), 0);
      expect(rows(many.stderr)).toBe(rows(one.stderr));
      expect([...many.stderr.matchAll(/rows? read/g)].length).toBeGreaterThan(3);
    });

  it('that repeats the header, as one JSON object a line', { timeout: 240_000 }, () =>
    compare(`${split} --header : "${call} cohort - --format ndjson" < in.csv`, `${call} cohort - --format ndjson < in.csv`),
  );

  it('with the header on the command line, as CSV', { timeout: 240_000 }, () =>
    compare(`tail -n +2 in.csv | ${split} "${call} cohort - --header '$(cat header)'"`, `${call} cohort in.csv | tail -n +2`),
  );

  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  const lines = readme.split('\n').filter((line) => /^[^`]*\| parallel .* > \S+$/.test(line));

  it('the lines of the README name some', () => {
    expect(lines.length).toBeGreaterThanOrEqual(2);
  });

  it.each(lines)('%s', { timeout: 120_000 }, (line) =>
    inFolder(async (folder) => {
      cpSync(fileURLToPath(new URL('../../examples', import.meta.url)), join(folder, 'examples'), { recursive: true });
      mkdirSync(join(folder, 'bin'));
      writeFileSync(join(folder, 'bin', 'footing'), `#!/bin/sh\nexec ${call} "$@"\n`, { mode: 0o755 });
      const { stderr } = await shell(`PATH="$PWD/bin:$PATH"; ${line}`, folder);
      expect(stderr).toContain('11 rows read, 9 accepted, 2 refused');
      const format = line.includes('ndjson') ? 'ndjson' : 'csv';
      const { stdout } = await shell(`${call} cohort examples/cohort.csv --format ${format}`, folder);
      const joined = readFileSync(join(folder, line.split(' > ').at(-1) ?? ''), 'utf8');
      expect(joined).toBe(format === 'csv' ? stdout.slice(stdout.indexOf('\n') + 1) : stdout);
    }),
  );
});
