/**
 * On request: the built program under other Node majors, as the npm package `node` offers them, against this one.
 * `node tests/hardening/nodes.mjs [major...]`, by default 22 and 24. Needs the network; not part of `npm test`.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { digests } from './same-bytes.mjs';

const bin = fileURLToPath(new URL('../../bin/footing.js', import.meta.url));
const majors = process.argv.length > 2 ? process.argv.slice(2) : ['22', '24'];
const usual = digests(bin);

for (const major of majors) {
  const folder = mkdtempSync(join(tmpdir(), 'footing-node-'));
  try {
    writeFileSync(join(folder, 'package.json'), '{"private":true}\n');
    const installed = spawnSync('npm', ['install', '--silent', '--no-audit', '--no-fund', `node@${major}`], {
      cwd: folder,
      shell: process.platform === 'win32',
    });
    const node = join(folder, 'node_modules', 'node', 'bin', process.platform === 'win32' ? 'node.exe' : 'node');
    const version = installed.status === 0 ? spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout?.trim() : undefined;
    if (!version) {
      console.log(`Node ${major}: not offered here, not compared`);
      continue;
    }
    const different = digests(bin, { node }).filter((line, index) => line !== usual[index]);
    console.log(
      `Node ${version}: ${different.length === 0 ? `same bytes as ${process.version}` : `differs from ${process.version}`}`,
    );
    for (const line of different) console.log(`  ${line}`);
    if (different.length > 0) process.exitCode = 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
