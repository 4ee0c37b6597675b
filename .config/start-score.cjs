// The short way for `score`: one file, compiled from V8's code cache. The engine itself refuses a cache of another version
// and compiles as usual; nothing else depends on it.
'use strict';
const { readFileSync } = require('node:fs');
const { join } = require('node:path');
const { Script } = require('node:vm');

const filename = join(__dirname, 'score.cjs');

function codeCache() {
  try {
    return readFileSync(`${filename}.cache`);
  } catch {
    return undefined;
  }
}

/** The function that runs the file as a CommonJS module; `__load` fetches what is not in it. */
exports.compile = (cachedData = codeCache()) =>
  new Script(
    `(function (exports, require, module, __filename, __dirname, __load) {${readFileSync(filename, 'latin1')}\n})`,
    // A name without a folder: it is kept in the cache, which goes into the package.
    { filename: 'score.cjs', cachedData },
  );

exports.load = (script) => {
  const module = { exports: {} };
  script.runInThisContext()(module.exports, require, module, filename, __dirname, (file) => import(file));
  return module.exports;
};

exports.run = (argv) => exports.load(exports.compile()).run(argv);
