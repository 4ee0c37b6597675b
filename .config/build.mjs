// Build: `norms` compiles norms/ into src/evidence/compiled.ts; `all` also bundles the command line and the library into dist/.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { bundle, requireShim } from './bundle.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));

/** Runs a TypeScript module of src/ without any loader: bundle to a temporary file, import it. */
async function load(entry) {
  const folder = mkdtempSync(join(tmpdir(), 'footing-build-'));
  try {
    const outfile = join(folder, 'module.mjs');
    await build({
      entryPoints: [join(root, entry)],
      outfile,
      bundle: true,
      platform: 'node',
      format: 'esm',
      logLevel: 'error',
      banner: { js: requireShim },
    });
    return await import(pathToFileURL(outfile).href);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function compileNorms() {
  const { compileFolder, compileProtocols, writeCompiled, writeCompiledVersion, writeProtocols } =
    await load('src/evidence/compile.ts');
  const data = compileFolder(join(root, 'norms'), version);
  if ('problems' in data) {
    process.stderr.write(`${data.problems.join('\n')}\n${data.problems.length} problems in norms/\n`);
    process.exitCode = 1;
    return false;
  }
  writeCompiled(data, join(root, 'src/evidence/compiled.ts'));
  writeCompiledVersion(data, join(root, 'src/evidence/compiled-version.ts'));
  writeProtocols(compileProtocols(join(root, 'norms')), join(root, 'src/evidence/compiled-protocols.ts'));
  process.stderr.write(
    `norms/ compiled: ${data.tables.length} tables, ${data.cutPoints.length} cut-points, ${data.errors.length} measurement errors\n`,
  );
  return true;
}

const what = process.argv[2] ?? 'all';
if ((await compileNorms()) && what === 'all') await bundle(root, version, load);
