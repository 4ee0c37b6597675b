/** Permissions, links, devices and what a killed run leaves behind, on a real disk. */
import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { listFolder } from '../../src/cli/node-io.ts';
import { nodeStreams } from '../../src/cli/node-streams.ts';
import { writeWhole } from '../../src/cli/whole-file.ts';

const folders: string[] = [];
function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'footing-hardening-'));
  folders.push(folder);
  return folder;
}
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

describe.skipIf(process.platform === 'win32')('files on the disk', () => {
  const modeOf = (path: string): number => statSync(path).mode & 0o777;

  it('a new file is for its owner alone; an old one keeps its permissions', async () => {
    const folder = temporaryFolder();
    writeWhole(join(folder, 'new.txt'), 'x');
    expect(modeOf(join(folder, 'new.txt'))).toBe(0o600);
    chmodSync(join(folder, 'new.txt'), 0o664);
    writeWhole(join(folder, 'new.txt'), 'y');
    expect(modeOf(join(folder, 'new.txt'))).toBe(0o664);
    const sink = await nodeStreams().file(join(folder, 'rows.csv'));
    await sink.write('x');
    const [temporary] = readdirSync(folder).filter((name) => name.startsWith('.footing-'));
    expect(modeOf(join(folder, temporary ?? ''))).toBe(0o600);
    await sink.commit();
    expect(modeOf(join(folder, 'rows.csv'))).toBe(0o600);
    expect(readdirSync(folder).sort()).toEqual(['new.txt', 'rows.csv']);
  });

  it('a link in the place of an output is replaced, and what it leads to is not touched', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'victim'), 'old', { mode: 0o666 });
    for (const name of ['one', 'two']) symlinkSync('victim', join(folder, name));
    writeWhole(join(folder, 'one'), 'new');
    const sink = await nodeStreams().file(join(folder, 'two'));
    await sink.write('new');
    await sink.commit();
    expect(readFileSync(join(folder, 'victim'), 'utf8')).toBe('old');
    for (const name of ['one', 'two']) {
      expect(lstatSync(join(folder, name)).isSymbolicLink()).toBe(false);
      expect(modeOf(join(folder, name))).toBe(0o600);
    }
  });

  it('a device or pipe is written to and stays what it is', async () => {
    writeWhole('/dev/null', 'x');
    const sink = await nodeStreams().file('/dev/null');
    await sink.write('x');
    await sink.commit();
    expect(statSync('/dev/null').isCharacterDevice()).toBe(true);
  });

  it('links to folders, pipes and devices inside a folder are not read', () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'a.yaml'), 'x');
    symlinkSync('a.yaml', join(folder, 'b.yaml'));
    symlinkSync('.', join(folder, 'loop'));
    symlinkSync('/dev/zero', join(folder, 'zero.yaml'));
    symlinkSync('nowhere', join(folder, 'nowhere.yaml'));
    mkdirSync(join(folder, 'inside'));
    const pipe = spawnSync('mkfifo', [join(folder, 'pipe.yaml')]);
    expect(pipe.status).toBe(0);
    expect(listFolder(folder)).toEqual(['a.yaml', 'b.yaml', 'nowhere.yaml'].map((name) => join(folder, name)));
  });

  it('a write that fails leaves the old file and no temporary one', async () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, 'taken', 'inside'), { recursive: true });
    expect(() => writeWhole(join(folder, 'taken'), 'x')).toThrow();
    const sink = await nodeStreams().file(join(folder, 'rows.csv'));
    await sink.write('x');
    await sink.discard();
    expect(readdirSync(folder)).toEqual(['taken']);
  });

  it('what a killed run left is removed by the next run for the same file, and only that', async () => {
    const folder = temporaryFolder();
    const ended = spawnSync(process.execPath, ['-e', '0']).pid;
    const names = [
      `.footing-${ended}-out.html`,
      `.footing-${ended}-rows.csv`,
      `.footing-${ended}-other.html`,
      `.footing-${process.ppid}-out.html`,
    ];
    for (const name of names) writeFileSync(join(folder, name), 'client data', { mode: 0o600 });
    writeWhole(join(folder, 'out.html'), 'x');
    const sink = await nodeStreams().file(join(folder, 'rows.csv'));
    await sink.commit();
    expect(readdirSync(folder).sort()).toEqual([names[2], names[3], 'out.html', 'rows.csv'].sort());
  });
});
