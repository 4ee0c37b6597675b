/**
 * Random clients through the built library (`npm run build`) and through the second implementation.
 *   node tests/independent/run.mjs [HOW MANY] [FIRST SEED]   compares every field and prints what differs
 *   node tests/independent/run.mjs --freeze                  writes the hashes of the frozen sample anew, after a meant change of norms/
 *   node tests/independent/run.mjs --sample                  draws a new frozen sample of 500
 */
import { assess, loadEvidence, parseSession } from '../../dist/index.js';
import { visitOf } from './clients.mjs';
import { differences, view } from './differences.mjs';
import { freeze, frozenSample } from './freeze.mjs';
import { recompute } from './recompute.mjs';

const evidence = loadEvidence();

function sessionOf(visit, file) {
  const { session, problems } = parseSession(JSON.stringify(visit), { file, catalogue: evidence, today: '2026-05-20' });
  return { session, problems };
}

function compareMany(many, first) {
  const kinds = {};
  let refused = 0;
  let different = 0;
  for (let seed = first; seed < first + many; seed += 1) {
    const visit = visitOf(seed);
    const { session } = sessionOf(visit, `seed-${seed}`);
    if (session === null) {
      refused += 1;
      continue;
    }
    const found = differences(view(assess(session, evidence)), view(recompute(visit)));
    if (found.length > 0) different += 1;
    for (const { path, project, independent } of found) {
      const parts = path
        .split('/')
        .map((part, index, all) =>
          index > 1 && /^\d+$/.test(part) ? '*' : ['tests', 'comparisons', 'cut_points'].includes(all[index - 1]) ? '*' : part,
        );
      const kind = parts.join('/');
      kinds[kind] ??= { count: 0, examples: [] };
      kinds[kind].count += 1;
      if (kinds[kind].examples.length < 4)
        kinds[kind].examples.push(
          `seed ${seed} ${path}: project ${JSON.stringify(project)}, independent ${JSON.stringify(independent)}`,
        );
    }
  }
  for (const [kind, { count, examples }] of Object.entries(kinds)) console.log(`${count} ${kind}\n  ${examples.join('\n  ')}`);
  console.log(`${many} clients, ${refused} refused on reading, ${different} with a difference`);
  // A generator whose visits are mostly refused would prove nothing.
  process.exitCode = different > 0 || refused > many / 20 ? 1 : 0;
}

function drawSample(size) {
  const visits = [];
  for (let seed = 900001; visits.length < size; seed += 1) {
    const visit = visitOf(seed);
    if (sessionOf(visit, 'sample').session !== null) visits.push(visit);
  }
  freeze(visits);
}

const [first, second] = process.argv.slice(2);
if (first === '--freeze') freeze(frozenSample().map(({ visit }) => visit));
else if (first === '--sample') drawSample(500);
else compareMany(Number(first ?? 1000), Number(second ?? 1));
