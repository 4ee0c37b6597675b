/**
 * Broken files of every kind the program reads, made from a seed: no crash, no stack trace, one of the three exit codes, no
 * case over a second, no output with words of the machine, memory that does not grow. `FOOTING_FUZZ` is the number of cases,
 * `FOOTING_FUZZ_SEED` the first case; a failure names its number, which alone makes it again.
 */
import { describe, expect, it } from 'vitest';
import { harmless } from '../../src/cli/harmless.ts';
import { main } from '../../src/cli/main.ts';
import { bundledEvidence } from '../../src/evidence/bundled.ts';
import { sourceExcerpt } from '../../src/intake/excerpt.ts';
import { formatProblem, parseSession } from '../../src/intake/index.ts';
import { TARGETS, targetOf } from './fuzz-targets.ts';
import { type MemoryIo, memoryIo } from './memory-io.ts';
import { chance } from './random.ts';

const CASES = Number(process.env.FOOTING_FUZZ ?? 20_000);
const FIRST = Number(process.env.FOOTING_FUZZ_SEED ?? 1);
const LONGEST_MS = 1000;
/** What may still be held when all is done, beyond what was before. Bytes. */
const GROWTH = 300 * 1024 * 1024;

interface Ran {
  readonly code: number;
  readonly io: MemoryIo;
  readonly ms: number;
}

/** What `check` does with one file, without the command line around it. */
function readVisit(io: MemoryIo): number {
  const text = io.readFile('visit.yaml');
  const { session, problems } = parseSession(text, { file: 'visit.yaml', catalogue: bundledEvidence(), today: io.today() });
  for (const problem of problems) io.stderr.write(harmless(`${formatProblem(problem)}\n${sourceExcerpt(text, problem)}\n`));
  return session === null ? 1 : 0;
}

async function run(number: number): Promise<Ran> {
  const { argv, files } = targetOf(number).make(chance(number));
  const io = memoryIo({ files });
  const start = performance.now();
  const code = argv === undefined ? readVisit(io) : await main(argv, io);
  return { code, io, ms: performance.now() - start };
}

/** A machine at work on something else may hold one up: it counts only when it is slow three times. */
async function isSlow(number: number, first: number): Promise<boolean> {
  if (first < LONGEST_MS) return false;
  return (await run(number)).ms >= LONGEST_MS && (await run(number)).ms >= LONGEST_MS;
}

const FAULTS = [/fault of the program/, /\n\s+at .+:\d+:\d+\)?\n/, /native code/, /\[object /];

function faultsOf({ code, io }: Ran, name: string): string[] {
  const said = io.err();
  return [
    ...([0, 1, 2].includes(code) ? [] : [`exit code ${code}`]),
    ...FAULTS.filter((fault) => fault.test(said)).map((fault) => `${fault} on standard error: ${said.slice(0, 400)}`),
    ...(code !== 0 && said === '' ? ['refused without a word'] : []),
    ...(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/.test(said)
      ? [`a control character on standard error: ${JSON.stringify(said).slice(0, 300)}`]
      : []),
    ...(/\bNaN\b|\bundefined\b|\[object /.test(io.out()) && !['cohort', 'map'].includes(name)
      ? [`NaN, undefined or an object in the output: ${/.*(NaN|undefined|\[object ).*/.exec(io.out())?.[0]}`]
      : []),
  ];
}

interface Tally {
  readonly found: string[];
  /** How often each kind of file ended with each code. */
  readonly met: Map<string, number>;
}

async function judge(number: number, { found, met }: Tally): Promise<void> {
  const { name } = targetOf(number);
  try {
    const ran = await run(number);
    met.set(`${name} ${ran.code}`, (met.get(`${name} ${ran.code}`) ?? 0) + 1);
    const slow = (await isSlow(number, ran.ms)) ? [`${Math.round(ran.ms)} ms`] : [];
    found.push(...[...faultsOf(ran, name), ...slow].map((fault) => `case ${number} (${name}): ${fault}`));
  } catch (error) {
    found.push(`case ${number} (${name}): threw ${error instanceof Error ? error.stack : String(error)}`);
  }
}

/** Cases by which the modules are loaded before the memory is measured. */
const WARM_UP = 200;
/** With fewer cases a kind of file may by chance hold no good one. */
const ENOUGH = 5000;

describe('fuzzing', () => {
  it('has shares that come to a hundred', () => {
    expect(TARGETS.reduce((sum, { share }) => sum + share, 0)).toBe(100);
  });

  it(
    `${CASES} broken files`,
    async () => {
      const tally: Tally = { found: [], met: new Map() };
      for (let number = FIRST; number < FIRST + Math.min(CASES, WARM_UP); number += 1) await run(number).catch(() => undefined);
      const before = process.memoryUsage().heapUsed;
      for (let number = FIRST; number < FIRST + CASES && tally.found.length < 20; number += 1) await judge(number, tally);
      if (process.env.FOOTING_FUZZ !== undefined) console.log(Object.fromEntries([...tally.met].sort()));
      expect(tally.found).toEqual([]);
      expect(process.memoryUsage().heapUsed - before).toBeLessThan(GROWTH);
      // Files so broken that all are refused would test the door only.
      for (const { name } of TARGETS.filter((target) => target.name !== 'part' && CASES >= ENOUGH))
        expect(tally.met.get(`${name} 0`) ?? 0, name).toBeGreaterThan(0);
    },
    Math.max(180_000, CASES * 20),
  );
});
