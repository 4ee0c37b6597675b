/** One result of an invented test as the reader of files takes it: what is recorded, and what is told. */
import { expect } from 'vitest';
import type { Finding } from '../../src/intake/problems.ts';
import { readTest } from '../../src/intake/readings.ts';
import type { RecordedTest } from '../../src/session.ts';
import { definition, line } from './invented.ts';

const PATH = ['tests', 'walk'];
export function read(value: unknown, over: Parameters<typeof definition>[0] = {}): { tests: RecordedTest[]; told: string[] } {
  const findings: Finding[] = [];
  const tests = readTest(value, definition(over), PATH, findings);
  return { tests, told: findings.map(line) };
}
/** The only reading, where nothing was to be told. */
export function reading(value: unknown, over: Parameters<typeof definition>[0] = {}): unknown {
  const { tests, told } = read(value, over);
  expect(told).toEqual([]);
  expect(tests).toHaveLength(1);
  return tests[0]?.reading;
}
export function told(value: unknown, over: Parameters<typeof definition>[0] = {}): string[] {
  return read(value, over).told;
}
