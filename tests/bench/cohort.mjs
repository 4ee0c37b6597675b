// `footing cohort` beside csv-parse alone and beside the same join as SQL, on invented rows, in alternating runs on the same
// cores. Prints medians of the pairwise ratios, and the highest memory. `node cohort.mjs [ROWS ...]`, default 10000 1000000;
// 10000000 takes some minutes. The files go to a temporary folder that is removed at the end.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = fileURLToPath(new URL('.', import.meta.url));
const footing = fileURLToPath(new URL('../../bin/footing.js', import.meta.url));
const sizes = process.argv.length > 2 ? process.argv.slice(2).map(Number) : [10_000, 1_000_000];
const rounds = (rows) => (rows > 2_000_000 ? 1 : 3);
const folder = mkdtempSync(join(tmpdir(), 'footing-bench-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
const canPin = spawnSync('taskset', ['-c', '0', 'true']).status === 0;

function must(command, args, options = {}) {
  const { status, stderr } = spawnSync(command, args, { encoding: 'utf8', ...options });
  if (status !== 0) throw new Error(`${command} ${args.join(' ')} ended with ${status}: ${stderr}`);
}

if (!existsSync(join(here, 'node_modules'))) must('npm', ['ci', '--no-audit', '--no-fund'], { cwd: here });

/** Seconds and megabytes of a whole process. */
function measure(args, cores) {
  const peak = join(folder, 'peak');
  const node = [process.execPath, '--import', join(here, 'peak.mjs'), ...args];
  const [command, ...rest] = cores === 1 && canPin ? ['taskset', '-c', '0', ...node] : node;
  const start = process.hrtime.bigint();
  must(command, rest, { env: { ...process.env, PEAK_FILE: peak } });
  const seconds = Number(process.hrtime.bigint() - start) / 1e9;
  return { seconds, megabytes: Number(readFileSync(peak, 'utf8')) / 1024 };
}

function contenders(input, cores) {
  const output = join(folder, 'out.csv');
  return [
    { name: '(a) csv-parse, records', args: [join(here, 'parse.mjs'), 'record', input] },
    { name: '(b) csv-parse, arrays', args: [join(here, 'parse.mjs'), 'array', input] },
    { name: '(c) SQL join in DuckDB', args: [join(here, 'sql.mjs'), String(cores), input, output] },
    // With two cores it decides itself whether the second is worth its start.
    { name: '(d) footing cohort', args: [footing, 'cohort', input, '-o', output, ...(cores === 1 ? ['--workers', '1'] : [])] },
  ];
}

function compare(input, rows, cores) {
  const all = contenders(input, cores);
  const runs = Array.from({ length: rounds(rows) }, () => all.map(({ args }) => measure(args, cores)));
  for (const [index, { name }] of all.entries()) {
    const ratio = median(runs.map((run) => run[index].seconds / run[0].seconds));
    const seconds = median(runs.map((run) => run[index].seconds));
    const megabytes = Math.max(...runs.map((run) => run[index].megabytes));
    const perRow = ((seconds / rows) * 1e6).toFixed(2);
    console.log(
      `  ${name.padEnd(24)} ${ratio.toFixed(2)} x (a)   ${seconds.toFixed(2).padStart(6)} s   ${perRow.padStart(6)} us a row   ${megabytes.toFixed(0).padStart(4)} MB`,
    );
  }
}

for (const rows of sizes)
  for (const decimals of [1, 2]) {
    const input = join(folder, 'rows.csv');
    must(process.execPath, [join(here, 'rows.mjs'), String(rows), String(decimals), input]);
    for (const cores of [1, 2]) {
      const where = cores === 1 ? `one core${canPin ? '' : ' (not pinned: there is no taskset here)'}` : 'two cores';
      console.log(`${rows} rows of 12 columns, times to ${decimals === 1 ? 'a tenth' : 'a hundredth'} of a second, ${where}:`);
      compare(input, rows, cores);
    }
  }
