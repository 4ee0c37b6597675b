/** norms/ as it lies on disk, read anew with a YAML reader and nothing else. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'yaml';

const folder = fileURLToPath(new URL('../../norms/', import.meta.url));
const read = (path) => parse(readFileSync(join(folder, path), 'utf8'));
const inFolder = (name) =>
  readdirSync(join(folder, name))
    .filter((file) => file.endsWith('.yaml'))
    .sort()
    .map((file) => join(name, file));

const tables = {};
for (const test of readdirSync(join(folder, 'tables')).sort())
  tables[test] = inFolder(join('tables', test)).map((path) => read(path));

const cuts = {};
for (const path of inFolder('cutpoints'))
  for (const cut of read(path).cut_points) {
    cuts[cut.test] ??= [];
    cuts[cut.test].push(cut);
  }

const errors = {};
for (const path of inFolder('error')) for (const entry of read(path).errors) errors[entry.id] = entry;

const catalogue = {};
for (const test of read('tests.yaml').tests) catalogue[test.id] = test;

export const norms = {
  tables,
  cuts,
  errors,
  catalogue,
  testIds: Object.keys(catalogue),
  defaults: read('defaults.yaml'),
  derived: read('derived.yaml'),
  pathways: inFolder('pathways').map((path) => read(path)),
  redFlags: read('cautions/red-flags.yaml').red_flags,
  factors: read('cautions/factors.yaml').factors,
  caps: read('cautions/caps.yaml').caps,
  exercises: inFolder('exercises')
    .map((path) => read(path))
    .sort((one, other) => one.order - other.order),
};
