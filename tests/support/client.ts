/** Short ways to write a session in a test. */
import type { Client, Fields, Measured, Reading, RecordedTest, Session, Side } from '../../src/session.ts';

export function client(over: Partial<Client> = {}): Client {
  return { ref: 'T-1', sex: 'female', age: 74, setting: 'community', settingAssumed: false, ...over };
}

export const measured = (trials: number | readonly number[], over: Partial<Measured> = {}): Measured => ({
  outcome: 'measured',
  trials: typeof trials === 'number' ? [trials] : trials,
  ...over,
});

export const unable: Reading = { outcome: 'unable', reason: 'could not' };

export const recorded = (test: string, reading: Reading | number, side: Side | null = null): RecordedTest => ({
  test,
  side,
  reading: typeof reading === 'number' ? measured(reading) : reading,
});

export function session(tests: readonly RecordedTest[] = [], fields: Fields = {}, who: Partial<Client> = {}): Session {
  return { format: 1, client: client(who), assessed: '2026-05-11', fields, tests, notes: [] };
}
