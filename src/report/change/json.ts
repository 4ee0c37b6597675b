/** The record of a change that other programs read: the value itself, keys in the order of the contract first. */
import type { Change, PlanChange, TestChange } from '../../change/types.ts';
import { sanitisedDeep } from '../view/sanitise.ts';

function inOrder<Value extends object>(value: Value, first: readonly (keyof Value & string)[]): Record<string, unknown> {
  const entries = new Map<string, unknown>(Object.entries(value));
  const rest = [...entries.keys()].filter((key) => !(first as readonly string[]).includes(key)).sort();
  return Object.fromEntries([...first, ...rest].map((key) => [key, entries.get(key)]));
}

const testRecord = (test: TestChange): Record<string, unknown> =>
  inOrder(test, [
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

const planRecord = (plan: PlanChange): Record<string, unknown> => inOrder(plan, ['exercise', 'before', 'after', 'move']);

/** JSON has no NaN: it would silently become null, which means "none" in the contract. */
function refuseNonNumbers(key: string, value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new RangeError(`not a finite number at ${key}`);
  return value;
}

/** One object, ending with a line feed. Throws RangeError when a number in it is not finite. */
export function renderChangeJson(given: Change): string {
  const change = sanitisedDeep(given);
  const record = inOrder({ ...change, tests: change.tests.map(testRecord), plan: change.plan.map(planRecord) }, [
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
  return `${JSON.stringify(record, refuseNonNumbers, 2)}\n`;
}
