// The bundles of dist/: the command line and the library (ES modules, split so that each command loads only its own part), and
// the short way for `score`, the command of every visit: one CommonJS file with V8's own code cache beside it.
import { spawnSync } from 'node:child_process';
import { copyFileSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { build } from 'esbuild';

// Bundled CommonJS packages (yaml's Node entry) ask for `require` of built-in modules.
export const requireShim =
  "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);";

export const common = (version) => ({
  bundle: true,
  minify: true,
  platform: 'node',
  target: 'node20.19',
  legalComments: 'none',
  logLevel: 'error',
  define: { 'process.env.FOOTING_VERSION': JSON.stringify(version) },
});

/** The big generated modules: name in src/evidence, the export that holds the JSON, file in dist. */
const GENERATED = [
  { module: 'compiled', constant: 'compiledJson', file: 'evidence.json' },
  { module: 'compiled-protocols', constant: 'compiledProtocolsJson', file: 'protocols.json' },
];

/** Reads the generated JSON from a file beside the bundle: the engine need not scan it as source. `read` is the code for it. */
const jsonBeside = (read) => ({
  name: 'json-beside',
  setup(build) {
    build.onLoad({ filter: /[\\/]src[\\/]evidence[\\/]compiled(-protocols)?\.ts$/ }, ({ path }) => {
      const { constant, file } = GENERATED.find(({ module }) => basename(path) === `${module}.ts`);
      const digest = /compiledDigest = (".*?")/.exec(readFileSync(path, 'utf8'))?.[1] ?? '""';
      const contents = `import { readFileSync } from 'node:fs'; export const compiledDigest = ${digest}; export const ${constant} = readFileSync(${read(file)}, 'latin1');`;
      return { contents, loader: 'js' };
    });
  },
});

async function writeGenerated(root, load) {
  for (const { module, constant, file } of GENERATED) {
    const loaded = await load(`src/evidence/${module}.ts`);
    writeFileSync(join(root, 'dist', file), loaded[constant], 'latin1');
  }
}

/** ES modules; gives the name of the output file of every module that is loaded on demand. */
async function bundleModules(root, version) {
  const { metafile } = await build({
    ...common(version),
    absWorkingDir: root,
    entryPoints: { cli: 'src/cli/main.ts', index: 'src/index.ts' },
    outdir: 'dist',
    splitting: true,
    format: 'esm',
    legalComments: 'linked',
    banner: { js: requireShim },
    plugins: [jsonBeside((file) => `new URL('./${file}', import.meta.url)`)],
    metafile: true,
  });
  const outputs = Object.entries(metafile.outputs).filter(([, { entryPoint }]) => entryPoint !== undefined);
  return new Map(outputs.map(([output, { entryPoint }]) => [entryPoint, basename(output)]));
}

/** What `score` loads on demand is in the short way only if every run needs it; the rest is fetched from the split modules. */
const ALWAYS = new Set(['src/cli/score.ts', 'src/cli/settings-in-force.ts', 'src/cli/settings-file.ts']);

/** `import()` of a module that is not in the short way becomes a call of the loader that start-score.cjs hands in. */
const onDemand = (root, modules) => ({
  name: 'on-demand',
  setup(build) {
    build.onLoad({ filter: /[\\/]src[\\/].*\.ts$/ }, ({ path }) => {
      const contents = readFileSync(path, 'utf8').replace(/\bimport\('(\.\.?\/[^']+)'\)/g, (whole, wanted) => {
        const module = relative(root, resolve(dirname(path), wanted)).replaceAll('\\', '/');
        return ALWAYS.has(module) ? whole : `__load('./${modules.get(module)}')`;
      });
      return { contents: `declare const __load: (file: string) => Promise<any>;\n${contents}`, loader: 'ts' };
    });
  },
});

async function bundleScore(root, version, modules) {
  await build({
    ...common(version),
    absWorkingDir: root,
    entryPoints: ['src/cli/main.ts'],
    outfile: 'dist/score.cjs',
    format: 'cjs',
    plugins: [jsonBeside((file) => `__dirname + '/${file}'`), onDemand(root, modules)],
  });
  copyFileSync(join(root, '.config/start-score.cjs'), join(root, 'dist/start-score.cjs'));
  const visits = readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.yaml'));
  const { status, stderr } = spawnSync(
    process.execPath,
    [join(root, '.config/make-code-cache.cjs'), join(root, 'dist'), ...visits.map((name) => join(root, 'examples', name))],
    { encoding: 'utf8' },
  );
  if (status !== 0) throw new Error(`the code cache could not be made: ${stderr}`);
}

export async function bundle(root, version, load) {
  rmSync(join(root, 'dist'), { recursive: true, force: true });
  const modules = await bundleModules(root, version);
  await writeGenerated(root, load);
  await bundleScore(root, version, modules);
}
