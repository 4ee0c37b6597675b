/** A generated cohort and the built program as a process, for tests of what happens to a run from outside. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const HEADER = 'ref,sex,age,falls_past_year,feels_unsteady,timed_up_and_go,gait_speed_usual,grip_strength_right,remark';
/** One row in so many is refused. */
const REFUSED_EVERY = 997;

const rowOf = (index: number): string =>
  [
    `M-${index}`,
    index % 2 === 0 ? 'female' : 'male',
    60 + (index % 37),
    index % 4,
    index % 3 === 0 ? 'yes' : 'no',
    index % REFUSED_EVERY === 0 ? '12.8 s' : (6 + (index % 241) / 10).toFixed(1),
    (0.3 + (index % 113) / 100).toFixed(2),
    10 + (index % 41),
    index % 5000 === 0 ? '"two\nlines, quoted"' : '=1+1',
  ].join(',');

/** `quoted: false`: no line break inside a cell, so that it can be cut anywhere between lines. */
export function bigCohort(rows: number, { quoted = true } = {}): string {
  const lines = Array.from({ length: rows }, (_, index) => rowOf(index));
  return `${[HEADER, ...(quoted ? lines : lines.filter((line) => !line.includes('\n')))].join('\n')}\n`;
}

export async function inFolder(work: (folder: string) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'footing-big-'));
  try {
    await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** A command; `ended` waits for it. Arguments are not seen by a shell. */
export function started(
  command: string,
  args: readonly string[],
  cwd: string,
): { readonly child: ChildProcess; readonly ended: Promise<Ended> } {
  const child = spawn(command, args, { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
  const [out, err]: [Buffer[], Buffer[]] = [[], []];
  child.stdout.on('data', (piece: Buffer) => out.push(piece));
  child.stderr.on('data', (piece: Buffer) => err.push(piece));
  const ended = new Promise<Ended>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code, signal) =>
      resolve({ code, signal, stdout: Buffer.concat(out).toString(), stderr: Buffer.concat(err).toString() }),
    );
  });
  return { child, ended };
}

/** The built program under test, as words of a command line. */
export function programOf(bin: string): readonly [string, ...string[]] {
  return bin.endsWith('.js') ? [process.execPath, bin] : [bin];
}
