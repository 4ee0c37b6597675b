// Runs a room's tests for Stryker within its own process. Starting Vitest anew costs a second or more for every mutant, and
// there are some ten thousand; here the tests and what they use of src/ are bundled once, and a mutant costs one evaluation of
// the bundle (so that nothing worked out under another mutant is left in a cache) and the tests that reach it. Of Vitest the
// tests of the rooms use `describe`, `test` or `it`, their `each`, and `expect`, which here is Vitest's own too.
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { pathToFileURL } from 'node:url';
import { Script } from 'node:vm';
import { INSTRUMENTER_CONSTANTS } from '@stryker-mutator/api/core';
import { commonTokens, declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import { DryRunStatus, determineHitLimitReached, TestStatus, toMutantRunResult } from '@stryker-mutator/api/test-runner';
import * as vitest from '@vitest/expect';
import { build } from 'esbuild';
import fc from 'fast-check';
import * as yaml from 'yaml';

/** Runs of a property: few, and always from the same seed, so that a score can be had again. FOOTING_MOST_RUNS=5 takes fewer
 *  where the machine is slow; that can only let more mutants live. */
const RUNS = Number(process.env.FOOTING_MOST_RUNS ?? 25);
const SEED = 20260511;
/** Of what a test looks at one by one (visits, ages), every how many-eth; and the norms as the build left them. */
const ENVIRONMENT = { FOOTING_SAMPLE_EVERY: '100', FOOTING_BUILT_NORMS: 'yes' };

function expectOfVitest() {
  const { chai } = vitest;
  for (const plugin of [vitest.JestExtend, vitest.JestChaiExpect, vitest.JestAsymmetricMatchers]) chai.use(plugin);
  const expect = (value, message) => chai.expect(value, message);
  Object.assign(expect, chai.expect, globalThis[vitest.ASYMMETRIC_MATCHERS_OBJECT]);
  globalThis[vitest.GLOBAL_EXPECT] = expect;
  vitest.setState({ assertionCalls: 0, isExpectingAssertions: false, expectedAssertionsNumber: null }, expect);
  return expect;
}

const fewRuns = {
  ...fc,
  assert: (property, given = {}) => fc.assert(property, { ...given, seed: SEED, numRuns: Math.min(given.numRuns ?? RUNS, RUNS) }),
};

const read = new Map();
/** The same text is parsed once: the tests read all of norms/ anew for every mutant, and change nothing of it. */
const yamlOnce = {
  ...yaml,
  parse: (text, ...more) => {
    if (more.length > 0 || text.length < 2000) return yaml.parse(text, ...more);
    if (!read.has(text)) read.set(text, yaml.parse(text));
    return read.get(text);
  },
};

/** Collects the tests of a file while it is loaded, each with an id that is the same in every run. */
class Collector {
  tests = [];
  path = [];

  api() {
    const add = (name, body) => this.tests.push({ name: [...this.path, name].join(' > '), body });
    const group = (name, body) => {
      this.path.push(name);
      body();
      this.path.pop();
    };
    const each = (register) => (rows) => (name, body) =>
      rows.forEach((row, index) => {
        register(`${name} [${index}]`, () => body(...(Array.isArray(row) ? row : [row])));
      });
    const test = Object.assign(add, { each: each(add) });
    return { test, it: test, describe: Object.assign(group, { each: each(group) }) };
  }
}

class InProcessRunner {
  static inject = [commonTokens.options];
  namespace = {};
  expect = expectOfVitest();

  constructor(options) {
    this.settings = options.footing;
    this.bail = !options.disableBail;
    globalThis[INSTRUMENTER_CONSTANTS.NAMESPACE] = this.namespace;
  }

  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    Object.assign(process.env, ENVIRONMENT);
    const slow = (file) => (this.settings.slow.some((part) => file.includes(part)) ? 1 : 0);
    this.files = this.settings.folders
      .flatMap((folder) => readdirSync(folder).map((name) => `${folder}/${name}`))
      .filter((file) => file.endsWith('.test.ts') && !this.isLeftOut(file))
      .sort((a, b) => slow(a) - slow(b) || (a < b ? -1 : 1));
    const entry = this.files.map((file) => `${JSON.stringify(file)}: () => require('./${file}')`);
    const bundled = await build({
      stdin: { contents: `exports.files = { ${entry.join(', ')} };`, resolveDir: process.cwd() },
      bundle: true,
      write: false,
      format: 'cjs',
      platform: 'node',
      packages: 'external',
      logLevel: 'error',
      plugins: [{ name: 'urls', setup: ownUrls }],
    });
    const code = `(function (require, exports, module) {${bundled.outputFiles[0].text}\n})`;
    this.evaluate = new Script(code, { filename: 'mutated-tests.cjs' }).runInThisContext();
    this.require = createRequire(join(process.cwd(), 'package.json'));
  }

  /** A fresh copy of every module; the files are loaded one by one, as they are called for. */
  load(collector) {
    const shims = {
      vitest: { ...collector, expect: this.expect },
      'fast-check': fewRuns,
      yaml: yamlOnce,
    };
    const module = { exports: {} };
    this.evaluate((name) => shims[name] ?? this.require(name), module.exports, module);
    return module.exports.files;
  }

  async dryRun() {
    this.namespace.activeMutant = undefined;
    const result = await this.run({ bail: false });
    return { ...result, mutantCoverage: this.namespace.mutantCoverage };
  }

  async mutantRun({ activeMutant, testFilter, hitLimit, mutantActivation }) {
    Object.assign(this.namespace, { hitLimit, hitCount: hitLimit === undefined ? undefined : 0, activeMutant: undefined });
    const activate = () => {
      this.namespace.activeMutant = activeMutant.id;
    };
    if (mutantActivation === 'static') activate();
    const wanted = testFilter === undefined ? undefined : new Set(testFilter);
    const result = await this.run({ wanted, activate, bail: this.bail });
    const timeOut = determineHitLimitReached(this.namespace.hitCount, hitLimit);
    return toMutantRunResult(timeOut ?? result);
  }

  /** `wanted`: ids of the tests to run, all without it; `activate` makes the mutant live once a file has been loaded. */
  async run({ wanted, activate, bail }) {
    const collector = new Collector();
    const load = this.load(collector.api());
    const tests = [];
    for (const file of this.files) {
      if (wanted !== undefined && ![...wanted].some((id) => id.startsWith(`${file}#`))) continue;
      for await (const result of this.runFile(file, { collector, load, wanted, activate })) {
        tests.push(result);
        if (bail && result.status === TestStatus.Failed) return { status: DryRunStatus.Complete, tests };
      }
    }
    return { status: DryRunStatus.Complete, tests };
  }

  async *runFile(file, { collector, load, wanted, activate }) {
    collector.tests = [];
    collector.path = [];
    if (wanted !== undefined) this.namespace.activeMutant = undefined;
    try {
      load[file]();
    } catch (error) {
      yield outcome(`${file}#loading`, file, error, 0);
      return;
    }
    if (wanted !== undefined) activate?.();
    const seen = new Map();
    for (const { name, body } of collector.tests) {
      const count = (seen.get(name) ?? 0) + 1;
      seen.set(name, count);
      const id = `${file}#${name}${count === 1 ? '' : ` (${count})`}`;
      if (wanted === undefined ? !this.isLeftOut(id) : wanted.has(id)) yield await this.one(id, file, body);
    }
  }

  isLeftOut(id) {
    return this.settings.leftOut.some((part) => id.includes(part));
  }

  async one(id, file, body) {
    const start = performance.now();
    this.namespace.currentTestId = id;
    let failure;
    try {
      await body();
    } catch (error) {
      failure = error ?? new Error('thrown without a reason');
    }
    this.namespace.currentTestId = undefined;
    return outcome(id, file, failure, performance.now() - start);
  }
}

function outcome(id, file, failure, timeSpentMs) {
  const base = { id, name: id, timeSpentMs, fileName: join(process.cwd(), file) };
  if (failure === undefined) return { ...base, status: TestStatus.Success };
  return { ...base, status: TestStatus.Failed, failureMessage: String(failure?.message ?? failure).slice(0, 500) };
}

/** In a bundle `import.meta.url` would be that of the bundle: every file keeps its own. */
function ownUrls({ onLoad }) {
  onLoad({ filter: /[\\/](src|tests)[\\/].*\.(ts|mjs)$/ }, ({ path }) => ({
    contents: readFileSync(path, 'utf8').replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path).href)),
    loader: path.endsWith('.ts') ? 'ts' : 'js',
  }));
}

export const strykerPlugins = [declareClassPlugin(PluginKind.TestRunner, 'in-process', InProcessRunner)];
