// The bundles of dist/: the command line and the library (ES modules, split so that each command loads only its own part), and
// the short way for `score`, the command of every visit: one CommonJS file with V8's own code cache beside it.
import { spawnSync } from 'node:child_process';
import { copyFileSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
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

/**
 * Some libraries can fetch things by themselves when they are asked to. This program never asks; so that nothing can, the
 * modules of the platform that reach a network are not even in the bundle.
 */
export const noNetwork = {
  name: 'no-network',
  setup(build) {
    const names = /^((node:)?(net|http|https|http2|tls|dns|dgram)|sync-fetch|node-fetch|fetch-ponyfill|cross-fetch)$/;
    build.onResolve({ filter: names }, () => ({ path: 'no-network', namespace: 'none' }));
    build.onLoad({ filter: /.*/, namespace: 'none' }, () => ({
      contents: "module.exports = function () { throw new Error('footing makes no network call'); };",
      loader: 'js',
    }));
  },
};

/** Commander can start other programs as commands; none here is one, and the module for it costs a tenth of a short run. */
export const noExecutables = {
  name: 'no-executables',
  setup(build) {
    build.onResolve({ filter: /^node:child_process$/ }, ({ importer }) =>
      /[\\/]commander[\\/]/.test(importer) ? { path: 'no-executables', namespace: 'no-executables' } : undefined,
    );
    build.onLoad({ filter: /.*/, namespace: 'no-executables' }, () => ({ contents: 'module.exports = {};', loader: 'js' }));
  },
};

async function writeGenerated(folder, load) {
  for (const { module, constant, file } of GENERATED) {
    const loaded = await load(`src/evidence/${module}.ts`);
    writeFileSync(join(folder, file), loaded[constant], 'latin1');
  }
}

/** ES modules; gives the name of the output file of every module that is loaded on demand. */
async function bundleModules(root, folder, version) {
  const { metafile } = await build({
    ...common(version),
    absWorkingDir: root,
    entryPoints: {
      cli: 'src/cli/main.ts',
      index: 'src/index.ts',
      // Files that the worker pool of large cohorts starts by name.
      'cohort-worker': 'src/cohort/worker.ts',
      'entry/worker': 'node_modules/tinypool/dist/entry/worker.js',
    },
    outdir: folder,
    splitting: true,
    format: 'esm',
    legalComments: 'linked',
    banner: { js: requireShim },
    plugins: [noNetwork, noExecutables, jsonBeside((file) => `new URL('./${file}', import.meta.url)`)],
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

async function bundleScore(root, folder, version, modules) {
  await build({
    ...common(version),
    absWorkingDir: root,
    entryPoints: ['src/cli/main.ts'],
    outfile: join(folder, 'score.cjs'),
    format: 'cjs',
    plugins: [noNetwork, noExecutables, jsonBeside((file) => `__dirname + '/${file}'`), onDemand(root, modules)],
  });
  copyFileSync(join(root, '.config/start-score.cjs'), join(folder, 'start-score.cjs'));
  const visits = readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.yaml'));
  const { status, stderr } = spawnSync(
    process.execPath,
    [join(root, '.config/make-code-cache.cjs'), folder, ...visits.map((name) => join(root, 'examples', name))],
    { encoding: 'utf8' },
  );
  if (status !== 0) throw new Error(`the code cache could not be made: ${stderr}`);
}

/** Shipped for editors; `footing schema` prints the same. */
async function writeSchema(folder, load) {
  const { sessionJsonSchema } = await load('src/intake/session-schema.ts');
  const { tests } = JSON.parse(readFileSync(join(folder, 'evidence.json'), 'latin1'));
  writeFileSync(join(folder, 'visit.schema.json'), `${JSON.stringify(sessionJsonSchema(tests), null, 2)}\n`);
}

/** Into a folder beside dist/ first: a build that fails leaves the old program as it was. */
export async function bundle(root, version, load) {
  const folder = join(root, '.footing-dist');
  rmSync(folder, { recursive: true, force: true });
  const modules = await bundleModules(root, folder, version);
  await writeGenerated(folder, load);
  await bundleScore(root, folder, version, modules);
  await writeSchema(folder, load);
  rmSync(join(root, 'dist'), { recursive: true, force: true });
  renameSync(folder, join(root, 'dist'));
}
