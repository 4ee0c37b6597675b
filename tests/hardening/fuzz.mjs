/**
 * On request: a million broken files (or as many as the first argument says) and a tenth as many mangled cohorts, with other
 * seeds in each of two processes.
 */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const cases = Number(process.argv[2] ?? 1_000_000);
const first = Number(process.argv[3] ?? 1);
const half = Math.ceil(cases / 2);
const root = fileURLToPath(new URL('../..', import.meta.url));

const one = (seed, count) =>
  new Promise((resolve) => {
    const cohorts = String(Math.ceil(count / 10));
    const env = { ...process.env, FOOTING_FUZZ: String(count), FOOTING_FUZZ_COHORT: cohorts, FOOTING_FUZZ_SEED: String(seed) };
    const tests = ['tests/hardening/fuzz.test.ts', 'tests/cohort/fuzz.test.ts'];
    const args = ['vitest', 'run', '--config', '.config/vitest.config.ts', ...tests];
    spawn('npx', args, { cwd: root, env, stdio: 'inherit', shell: process.platform === 'win32' }).on('exit', (code) =>
      resolve(code ?? 1),
    );
  });

const codes = await Promise.all([one(first, half), one(first + half, cases - half)]);
process.exitCode = Math.max(...codes);
