/** Short ways to write two visits and to read one test out of the change between them. */
import type { Change, TestChange } from '../../src/change/types.ts';
import { changeOf } from '../../src/change-visits.ts';
import type { Client, Fields, Reading, RecordedTest, Session, Side } from '../../src/session.ts';
import { recorded, session } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

export const evidence = testEvidence();

export const FIRST = '2026-02-02';
export const LATER = '2026-05-04';

export const visit = (
  assessed: string,
  tests: readonly RecordedTest[],
  fields: Fields = {},
  who: Partial<Client> = {},
): Session => ({
  ...session(tests, fields, who),
  assessed,
});

export const change = (sessions: readonly Session[]): Change => changeOf(sessions, evidence);

export function only(found: Change, test: string, side: Side | null = null): TestChange {
  const result = found.tests.find((each) => each.test === test && each.side === side);
  if (result === undefined) throw new Error(`${test} is not in the change`);
  return result;
}

type Value = Reading | number;

/** One test at two visits three months apart. */
export function twice(
  test: string,
  before: Value,
  after: Value,
  options: { fields?: Fields; side?: Side | null; who?: Partial<Client> } = {},
): TestChange {
  const { fields = {}, side = null, who = {} } = options;
  const found = change([
    visit(FIRST, [recorded(test, before, side)], fields, who),
    visit(LATER, [recorded(test, after, side)], fields, who),
  ]);
  return only(found, test, side);
}
