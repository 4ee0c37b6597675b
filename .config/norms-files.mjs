// Writes the generated part of norms/: schemas, the editor line on top of every file, the tables in norms/README.md.
// Run it after norms/ has changed; a test fails while anything is stale.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'footing-norms-'));
try {
  const outfile = join(folder, 'module.mjs');
  await build({
    stdin: {
      contents: "export * from './tests/support/norms-files.ts'; export { compileFolder } from './src/evidence/compile.ts';",
      resolveDir: root,
      loader: 'ts',
    },
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    logLevel: 'error',
    banner: {
      js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
    },
  });
  const { compileFolder, staleNormsFiles } = await import(pathToFileURL(outfile).href);
  const data = compileFolder(join(root, 'norms'), 'unbuilt');
  if ('problems' in data) throw new Error(`norms/ is not valid:\n${data.problems.join('\n')}`);
  const stale = staleNormsFiles(root, data);
  for (const [path, text] of stale) {
    mkdirSync(dirname(join(root, 'norms', path)), { recursive: true });
    writeFileSync(join(root, 'norms', path), text);
  }
  console.log(stale.size === 0 ? 'norms/: nothing was stale' : `norms/: wrote ${stale.size} files`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
