// A single executable file for this platform: Node's own mechanism (on Node 20 its script must be CommonJS), with everything in it.
// `npm run single` writes build/footing; it needs no Node, no folder and no network.
import { spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { inject } from 'postject';
import { common, noExecutables, noNetwork } from './bundle.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const folder = join(root, 'build');
const target = join(folder, process.platform === 'win32' ? 'footing.exe' : 'footing');

/** The word that Node looks for in its own binary. */
const FUSE = 'NODE_SEA_FUSE_fce680ab2cc467b6e072b8b5df1996b2';

const entry = `
import { run } from './src/cli/main.ts';
run(process.argv.slice(2)).then((code) => { process.exitCode = code; });
`;

async function script() {
  const { outputFiles, warnings } = await build({
    ...common(version),
    // There are no files beside it: where the program looks for one (the worker of the cohort command), none is found.
    define: { ...common(version).define, 'import.meta.url': JSON.stringify('file:///single-file/') },
    absWorkingDir: root,
    stdin: { contents: entry, resolveDir: root, sourcefile: 'single.ts', loader: 'ts' },
    write: false,
    format: 'cjs',
    plugins: [noNetwork, noExecutables],
  });
  if (warnings.length > 0) throw new Error(warnings.map(({ text }) => text).join('\n'));
  return outputFiles[0].contents;
}

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder);
const [main, config, blob] = ['footing.cjs', 'sea.json', 'footing.blob'].map((name) => join(folder, name));
writeFileSync(main, await script());
writeFileSync(config, JSON.stringify({ main, output: blob, disableExperimentalSEAWarning: true, useCodeCache: true }));
const { status, stderr } = spawnSync(process.execPath, ['--experimental-sea-config', config], { encoding: 'utf8' });
if (status !== 0) throw new Error(stderr);
copyFileSync(process.execPath, target);
chmodSync(target, 0o755);
await inject(target, 'NODE_SEA_BLOB', readFileSync(blob), {
  sentinelFuse: FUSE,
  ...(process.platform === 'darwin' ? { machoSegmentName: 'NODE_SEA' } : {}),
});
for (const file of [main, config, blob]) rmSync(file);
process.stderr.write(`wrote build/${process.platform === 'win32' ? 'footing.exe' : 'footing'}\n`);
