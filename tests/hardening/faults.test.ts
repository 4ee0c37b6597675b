/**
 * Fault injection at the seam to the outside world: of each command line every read and write is made to fail once, one after
 * the other. The program must say which file and why, end with exit code 2 (or 1 where the rest went on), leave every old file
 * as it was and write nothing by halves.
 */
import { describe, expect, it } from 'vitest';
import { main } from '../../src/cli/main.ts';
import { clinicFolder } from '../support/clinic.ts';
import { exampleFiles } from '../support/run.ts';
import { memoryIo } from './memory-io.ts';

const visit = exampleFiles()['examples/copd-74.yaml'] ?? '';
const steady = exampleFiles()['examples/steady-66.yaml'] ?? '';
const OLD = 'what stood here before';
const CSV = 'ref,sex,age,assessed,timed_up_and_go\nA-1,female,74,2026-05-11,12.8\nA-2,female,74,2026-05-11,-3\n';

const files: Readonly<Record<string, string>> = {
  'visit.yaml': visit,
  'folder/a.yaml': visit,
  'folder/b.yaml': steady,
  'in.csv': CSV,
  'map.yaml': 'format: 1\ncolumns: {ref: ref}\n',
  '.footing.yaml': 'emergency_number: "112"\n',
  'out.txt': OLD,
  'refused.csv': OLD,
  'people.yaml': 'client: {name: A. Client}\n',
  't.txt': '{{ summary }}\n',
  ...clinicFolder('own'),
};

const COMMANDS: readonly (readonly string[])[] = [
  ['score', 'visit.yaml'],
  ['score', 'visit.yaml', 'folder/b.yaml', '-o', 'out.txt'],
  ['score', '-'],
  ['score', 'visit.yaml', '--norms', 'own', '--format', 'html', '-o', 'out.txt'],
  ['risk', 'visit.yaml'],
  ['check', 'folder'],
  ['due', 'folder', '-o', 'out.txt'],
  ['handout', 'visit.yaml', '-o', 'out.txt'],
  ['letter', 'visit.yaml', '--people', 'people.yaml', '--template', 't.txt', '-o', 'out.txt'],
  ['cohort', 'in.csv', '--columns', 'map.yaml', '-o', 'out.txt', '--rejects', 'refused.csv', '--summary', 's.json'],
  ['cohort', 'in.csv', '-o', 'out.txt', '--summary-part', 'part.json'],
  ['cohort', 'folder', '-o', 'out.txt', '--summary', 's.html'],
  ['norms', 'check', 'own'],
  ['norms', 'new', 'smith-2021-tug', '--test', 'timed_up_and_go', '--to', 'more'],
  ['norms', 'book', '-o', 'out.txt'],
  ['new', '--blank', 'out.txt'],
  ['new', '--paper', 'out.txt'],
  ['settings'],
  ['explain', 'visit.yaml', 'level'],
];

const CODES = [
  ['EACCES', 'you have no permission for it'],
  ['EIO', 'the disk could not be read or written'],
  ['ENOSPC', 'the disk is full'],
] as const;

async function callsOf(argv: readonly string[]): Promise<readonly string[]> {
  const io = memoryIo({ files, stdin: visit });
  await main(argv, io);
  return io.calls;
}

/** Files after an undisturbed run, and after one without the file of the call: where one visit cannot be read, the others go on. */
async function wholeOutputs(argv: readonly string[], call: string): Promise<ReadonlyMap<string, Buffer>[]> {
  const without = Object.fromEntries(Object.entries(files).filter(([path]) => !call.endsWith(` ${path}`)));
  const runs = [files, without].map((each) => memoryIo({ files: each, stdin: visit }));
  for (const io of runs) await main(argv, io);
  const refused = memoryIo({ files: { ...files, [call.replace(/^\S+ /, '')]: '' }, stdin: visit });
  await main(argv, refused);
  return [...runs, refused].map((io) => io.files);
}

describe.each(COMMANDS)('footing %s %s %s %s', (...words) => {
  const argv = words.filter((word): word is string => word !== undefined);

  it('each read and write fails once', async () => {
    const calls = await callsOf(argv);
    expect(calls.length).toBeGreaterThan(0);
    for (const [call, name] of calls.entries()) {
      const whole = await wholeOutputs(argv, name);
      for (const [code, reason] of CODES) {
        const io = memoryIo({ files, stdin: visit, fail: { call, code } });
        const ended = await main(argv, io);
        const about = `${name} fails with ${code}: ${io.err()}`;
        const path = name.replace(/^\S+ /, '');
        expect([1, 2], about).toContain(ended);
        expect(io.err(), about).not.toContain('fault of the program');
        expect(io.err(), about).toContain(reason);
        expect(io.err(), about).toContain(path);
        for (const [file, content] of io.files)
          expect([files[file], ...whole.map((run) => run.get(file)?.toString())], `${about}: ${file}`).toContain(
            content.toString(),
          );
      }
    }
  });
});

describe('outputs of a cohort belong together', () => {
  const argv = ['cohort', 'in.csv', '-o', 'out.txt', '--rejects', 'refused.csv'];

  it('nothing is written where the input breaks off', async () => {
    const calls = await callsOf(argv);
    const call = calls.indexOf('read in.csv');
    const io = memoryIo({ files, fail: { call, code: 'EIO' } });
    expect(await main(argv, io)).toBe(2);
    expect(io.files.get('out.txt')?.toString()).toBe(OLD);
    expect(io.files.get('refused.csv')?.toString()).toBe(OLD);
    expect(io.err()).toContain('nothing of this run is left in any file');
  });

  it('says which file is whole where the second cannot be finished', async () => {
    const calls = await callsOf(argv);
    const call = calls.indexOf('commit refused.csv');
    const io = memoryIo({ files, fail: { call, code: 'ENOSPC' } });
    expect(await main(argv, io)).toBe(2);
    expect(io.files.get('refused.csv')?.toString()).toBe(OLD);
    expect(io.err()).toContain('cannot write refused.csv: the disk is full; out.txt of this run is whole');
  });
});
