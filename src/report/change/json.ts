/** The record of a change that other programs read: the value itself, keys in the order of the contract first. */
import type { Change, PlanChange, TestChange } from '../../change/types.ts';
import { escapedJson, ordered } from '../json.ts';
import { sanitisedDeep } from '../view/sanitise.ts';

const testRecord = (test: TestChange): Record<string, unknown> =>
  ordered(test, [
    'test',
    'side',
    'before',
    'after',
    'change',
    'direction',
    'real',
    'matters',
    'mdc95',
    'mcid',
    'crossed',
    'disputed',
    'sources',
    'verdict',
  ]);

const planRecord = (plan: PlanChange): Record<string, unknown> => ordered(plan, ['exercise', 'before', 'after', 'move']);

/** One object, ending with a line feed. Throws RangeError when a number in it is not finite. */
export function renderChangeJson(given: Change): string {
  const change = sanitisedDeep(given);
  const record = ordered({ ...change, tests: change.tests.map(testRecord), plan: change.plan.map(planRecord) }, [
    'format',
    'tool',
    'evidence',
    'client',
    'from',
    'to',
    'tests',
    'risk',
    'plan',
  ]);
  return escapedJson(record);
}
