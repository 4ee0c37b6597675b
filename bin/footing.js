#!/usr/bin/env node
'use strict';

const argv = process.argv.slice(2);
const done =
  argv[0] === 'score' ? require('../dist/start-score.cjs').run(argv) : import('../dist/cli.js').then(({ run }) => run(argv));
done.then((code) => {
  process.exitCode = code;
});
