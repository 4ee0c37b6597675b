/** The frozen sample: 500 visits with a hash of what the second implementation makes of each. */
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { view } from './differences.mjs';
import { recompute } from './recompute.mjs';

const file = new URL('./frozen-sample.json', import.meta.url);
const DROPPED = ['format', 'assessed'];
const WORDS = { unable: 'could not', declined: 'did not want to', unsafe: 'stopped' };

/** Reasons carry no information here, so they are kept as one letter. */
const short = (value) => JSON.parse(JSON.stringify(value, (key, part) => (WORDS[key] === part ? 'x' : part)));

export function recomputed(visit) {
  const shown = view(recompute(visit));
  // To six places, so that the last binary digits of another machine's arithmetic do not count.
  const text = JSON.stringify(shown, (_, part) => (typeof part === 'number' ? Number(part.toFixed(6)) : part));
  return { view: shown, hash: createHash('sha256').update(text).digest('hex').slice(0, 12) };
}

export function frozenSample() {
  return JSON.parse(readFileSync(file, 'utf8')).map(([hash, visit]) => ({
    hash,
    visit: { format: 1, assessed: '2026-05-11', ...visit },
  }));
}

/** Writes the sample anew from these visits. */
export function freeze(visits) {
  const lines = visits.map((visit) => {
    const kept = Object.fromEntries(Object.entries(short(visit)).filter(([key]) => !DROPPED.includes(key)));
    return JSON.stringify([recomputed(visit).hash, kept]);
  });
  writeFileSync(file, `[\n${lines.join(',\n')}\n]\n`);
}
