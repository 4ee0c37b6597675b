// Build step: scores the examples once, so that the code cache holds every function that a visit needs.
'use strict';
const { writeFileSync } = require('node:fs');
const { join } = require('node:path');

const [dist, ...visits] = process.argv.slice(2);
const { compile, load } = require(join(dist, 'start-score.cjs'));

const script = compile(undefined);
const program = load(script);
const stream = { write: () => undefined, isTerminal: false, columns: undefined };
const io = { ...program.nodeIo(), stdout: stream, stderr: stream, env: {} };
(async () => {
  await program.main(['score', ...visits], io);
  for (const visit of visits) await program.main(['score', visit, '--json'], io);
  writeFileSync(join(dist, 'score.cjs.cache'), script.createCachedData());
})();
