/** The line that a waiting person sees, by a clock of its own. */
import { describe, expect, it } from 'vitest';
import { progressLine } from '../../src/cli/cohort-progress.ts';
import { main } from '../../src/cli/main.ts';
import { memoryIo } from '../hardening/memory-io.ts';

const WIPE = '\r\u001b[K';

/** A terminal and a clock that is set by hand. */
function terminal(isTerminal = true) {
  const told: string[] = [];
  const clock = { ms: 5000 };
  return { told, clock, stream: { write: (text: string) => void told.push(text), isTerminal, columns: 80 } };
}

describe('the progress line', () => {
  it('shows rows, rate, time left and refused so far, twice a second at most', () => {
    const { told, clock, stream } = terminal();
    const line = progressLine(stream, () => clock.ms, 1000);
    clock.ms += 499;
    line.show({ bytes: 10, accepted: 1, refused: 0 });
    expect(told).toEqual([]);
    clock.ms += 1501;
    line.show({ bytes: 100, accepted: 900, refused: 100 });
    clock.ms += 100;
    line.show({ bytes: 110, accepted: 990, refused: 100 });
    // 1000 rows in 2 s; a tenth of the bytes, so nine times as long is left.
    expect(told).toEqual([`${WIPE}1000 rows, 500 a second, 18 s left, 100 refused`]);
    line.clear();
    expect(told.at(-1)).toBe(WIPE);
  });

  it('gives no time left where the end is not known, and longer times in minutes and hours', () => {
    const left = (size: number | null): string => {
      const { told, clock, stream } = terminal();
      const line = progressLine(stream, () => clock.ms, size);
      clock.ms += 1000;
      line.show({ bytes: 1, accepted: 1, refused: 0 });
      return told.join('');
    };
    expect(left(null)).toBe(`${WIPE}1 rows, 1 a second, 0 refused`);
    expect(left(601)).toContain(', 10 min left,');
    expect(left(7201)).toContain(', 2.0 h left,');
  });

  it('is not there where nobody waits, and wipes nothing that it did not write', () => {
    const pipe = terminal(false);
    const silent = progressLine(pipe.stream, () => pipe.clock.ms, 1000);
    pipe.clock.ms += 60_000;
    silent.show({ bytes: 1, accepted: 1, refused: 0 });
    silent.clear();
    expect(pipe.told).toEqual([]);
    const quick = terminal();
    progressLine(quick.stream, () => quick.clock.ms, 1000).clear();
    expect(quick.told).toEqual([]);
  });
});

/** Rows enough for a few blocks. */
const CSV = `ref,sex,age,timed_up_and_go\n${'M-1,female,74,12.8\n'.repeat(30_000)}M-2,female,74,-3\n`;

async function waited(isTerminal: boolean): Promise<{ readonly said: string; readonly code: number }> {
  const io = memoryIo({ files: { 'in.csv': CSV } });
  let now = 0;
  const streams = async () => {
    const usual = await io.streams();
    const tick = (): number => {
      now += 1000;
      return now;
    };
    return { ...usual, now: tick };
  };
  const code = await main(['cohort', 'in.csv', '-o', 'out.csv'], { ...io, stderr: { ...io.stderr, isTerminal }, streams });
  return { said: io.err(), code };
}

describe('a run that somebody waits for', () => {
  it('shows the line and wipes it before anything else is said', async () => {
    const { said, code } = await waited(true);
    expect(code).toBe(1);
    expect(said).toMatch(/\r\u001b\[K\d+ rows, \d+ a second, \d+ s left, 0 refused/);
    const lines = said.split('\n').map((line) => line.split(WIPE).at(-1));
    expect(lines[0]).toMatch(/^in\.csv:row 30002: /);
    expect(lines.at(-2)).toBe('in.csv: 30001 rows read, 30000 accepted, 1 refused');
  });

  it('says only the refusals and the total where nobody waits', async () => {
    const { said } = await waited(false);
    expect(said).not.toMatch(/\r|a second/);
  });
});
