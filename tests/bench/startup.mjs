// Whole-process start-up of common commands as a ratio to `node -e 0`, in alternating runs so that a machine that speeds up
// or slows down does so for both. Prints medians and the median of the pairwise ratios.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const runs = Number(process.argv[2] ?? 31);

const commands = [
  { name: 'score one visit', args: ['bin/footing.js', 'score', 'examples/copd-74.yaml'] },
  { name: '--version', args: ['bin/footing.js', '--version'] },
  { name: '--help', args: ['bin/footing.js', '--help'] },
];

function milliseconds(args) {
  const start = process.hrtime.bigint();
  const { status } = spawnSync(process.execPath, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] });
  if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}`);
  return Number(process.hrtime.bigint() - start) / 1e6;
}

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

for (const { name, args } of commands) {
  milliseconds(args);
  const pairs = Array.from({ length: runs }, () => ({ baseline: milliseconds(['-e', '0']), footing: milliseconds(args) }));
  const ratio = median(pairs.map((pair) => pair.footing / pair.baseline));
  const baseline = median(pairs.map((pair) => pair.baseline)).toFixed(1);
  const footing = median(pairs.map((pair) => pair.footing)).toFixed(1);
  console.log(
    `${name.padEnd(18)} ratio to node -e 0: ${ratio.toFixed(2)}   (medians ${footing} ms and ${baseline} ms, ${runs} alternating runs)`,
  );
}
