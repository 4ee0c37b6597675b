/** One invented row asked about one value. */
import { Row } from '../../src/evidence/schema/table.ts';
import { type Question, type Scored, scoreAgainstRow } from '../../src/scoring/methods.ts';
import { valueAtPercentile } from '../../src/scoring/value-at-percentile.ts';
import { client } from '../support/client.ts';
import { table, walk } from './invented.ts';

export const row = (over: object): Row => Row.parse({ sex: 'all', age_min: 60, age_max: 90, ...over });
export const asked = (over: Partial<Question> = {}): Question => ({
  value: 10,
  better: 'higher',
  isTime: false,
  range: { lowest: 0, highest: Number.POSITIVE_INFINITY },
  client: { age: 70, sex: 'female', heightCm: 160, weightKg: 64 },
  unit: 's',
  ...over,
});
export const score = (printed: object, over: Partial<Question> = {}): Scored => scoreAgainstRow(row(printed), asked(over));

/** The value at a percentile of one row for people in their seventies; the test is a walk unless another is named. */
export function valueAt(printed: object, percentile: number, test = walk): number | null {
  const held = table({ test: test.id }, [{ sex: 'all', age_min: 70, age_max: 79, ...printed }]);
  const [part] = held.parts;
  const [first] = part?.rows ?? [];
  if (first === undefined) throw new Error('no row');
  return valueAtPercentile({ table: held, row: first }, percentile, { test, client: client() });
}
