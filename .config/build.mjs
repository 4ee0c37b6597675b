// Build: `norms` compiles norms/ into src/evidence/compiled.ts; `all` also bundles the command line and the library into dist/.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

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

// Bundled CommonJS packages (yaml's Node entry) ask for `require` of built-in modules.
const requireShim =
  "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);";

async function compileNorms() {
  const { compileFolder, writeCompiled, writeCompiledVersion } = await load('src/evidence/compile.ts');
  const data = compileFolder(join(root, 'norms'), version);
  if ('problems' in data) {
    process.stderr.write(`${data.problems.join('\n')}\n${data.problems.length} problems in norms/\n`);
    process.exitCode = 1;
    return false;
  }
  writeCompiled(data, join(root, 'src/evidence/compiled.ts'));
  writeCompiledVersion(data, join(root, 'src/evidence/compiled-version.ts'));
  process.stderr.write(
    `norms/ compiled: ${data.tables.length} tables, ${data.cutPoints.length} cut-points, ${data.errors.length} measurement errors\n`,
  );
  return true;
}

async function bundle() {
  rmSync(join(root, 'dist'), { recursive: true, force: true });
  await build({
    entryPoints: { cli: join(root, 'src/cli/main.ts'), index: join(root, 'src/index.ts') },
    outdir: join(root, 'dist'),
    bundle: true,
    splitting: true,
    minify: true,
    platform: 'node',
    target: 'node20.19',
    format: 'esm',
    legalComments: 'linked',
    logLevel: 'error',
    banner: { js: requireShim },
    define: { 'process.env.FOOTING_VERSION': JSON.stringify(version) },
  });
}

const what = process.argv[2] ?? 'all';
if ((await compileNorms()) && what === 'all') await bundle();
