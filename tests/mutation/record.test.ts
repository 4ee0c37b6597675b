/** The record of the last mutation run (`npm run mutation`): figures that add up, and a reason for every mutant that lived. */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';

const read = (name: string): unknown => parse(readFileSync(new URL(name, import.meta.url), 'utf8'));
const source = (file: string): URL => new URL(`../../${file}`, import.meta.url);

const count = z.number().int().nonnegative();
const scores = z
  .strictObject({
    rooms: z.record(
      z.string(),
      z.strictObject({ killed: count, survived: count, total: count, score: z.number(), date: z.iso.date() }),
    ),
  })
  .parse(read('scores.yaml'));
const { survivors } = z
  .strictObject({
    survivors: z.array(
      z.strictObject({
        file: z.string(),
        /** Words that stand in the file where the mutants are. */
        where: z.string().min(1),
        mutator: z.string().min(1),
        count: count.positive(),
        /** What was changed without any test noticing. */
        what: z.string().min(10),
        /** Why that is left as it is. */
        why: z.string().min(10),
      }),
    ),
  })
  .parse(read('survivors.yaml'));

const roomOf = (file: string): string => file.split('/')[1] ?? '';

test('every room that is mutated has its figures', () => {
  const settings = readFileSync(source('.config/stryker.mjs'), 'utf8');
  const [, listed = ''] = /ROOMS = \[(.*)\]/.exec(settings) ?? [];
  expect(Object.keys(scores.rooms)).toEqual(listed.split(', ').map((room) => room.replaceAll("'", '')));
});

test('the figures of all rooms together stand in DEVELOPERS.md', () => {
  const sum = (key: 'killed' | 'total'): string =>
    Object.values(scores.rooms)
      .reduce((all, room) => all + room[key], 0)
      .toLocaleString('en');
  expect(readFileSync(source('DEVELOPERS.md'), 'utf8')).toContain(`${sum('killed')} of ${sum('total')} mutants killed`);
});

describe.each(Object.entries(scores.rooms))('%s', (room, { killed, survived, total, score }) => {
  test('its figures add up and reach 90 %', () => {
    expect(killed + survived).toBe(total);
    expect(score).toBe(Math.round((10_000 * killed) / total) / 100);
    expect(score).toBeGreaterThanOrEqual(90);
  });
  test('every mutant that lived is accounted for', () => {
    const accounted = survivors.filter(({ file }) => roomOf(file) === room).reduce((sum, entry) => sum + entry.count, 0);
    expect(accounted).toBe(survived);
  });
});

test.each(survivors.map((entry) => [`${entry.file}: ${entry.where}`, entry] as const))(
  '%s is still there',
  (_, { file, where }) => {
    expect(existsSync(source(file))).toBe(true);
    expect(readFileSync(source(file), 'utf8')).toContain(where);
  },
);
