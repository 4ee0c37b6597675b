// Stryker's settings for the room named by FOOTING_ROOM. Start it with `npm run mutation`, see mutation.mjs.
export const ROOMS = ['scoring', 'risk', 'plan', 'change', 'intake'];

const room = process.env.FOOTING_ROOM ?? '';
const folder = `.footing-mutation/${room}`;

// biome-ignore lint/style/noDefaultExport: Stryker asks for one
export default {
  // Pages of plain text are left out: a test tries the wrong and the right example of every one of them.
  mutate: [`src/${room}/**/*.ts`, '!src/intake/problem-pages.ts'],
  plugins: ['./.config/mutation-runner.mjs'],
  testRunner: 'in-process',
  // Which tests judge the mutants: the room's own, then the second implementation. Slow files come last, so that a mutant
  // which a quick test kills never waits for them; what only looks for crashes over long stretches, or
  // never comes near src/, is left out.
  footing: {
    folders: [`tests/${room}`, 'tests/independent'],
    slow: ['tests/independent/', 'properties.test.ts', 'brief.test.ts', 'problem-pages.test.ts', 'interview.test.ts'],
    leftOut: ['tests/scoring/grid.test.ts', 'tests/scoring/shown-standing.test.ts', 'when the sample was frozen'],
  },
  // There is none of this name: Stryker would rewrite it with a compiler interface that TypeScript 7 no longer has.
  tsconfigFile: 'tsconfig.none.json',
  coverageAnalysis: 'perTest',
  concurrency: 2,
  timeoutMS: 20_000,
  // Results are kept, so that the next run looks only at what changed since, in the room or in its tests.
  incremental: true,
  incrementalFile: `${folder}/results.json`,
  tempDirName: `${folder}/tree`,
  reporters: ['progress-append-only', 'clear-text', 'json', 'html'],
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false, reportScoreTable: true, skipFull: true },
  jsonReporter: { fileName: `${folder}/report.json` },
  htmlReporter: { fileName: `${folder}/report.html` },
  // Copied into no tree: what the build makes and what other runs left.
  ignorePatterns: ['.footing-*', 'dist', 'build', 'coverage', '*.tgz'],
  thresholds: { high: 95, low: 90, break: 90 },
  allowEmpty: false,
  warnings: { unknownOptions: false },
};
