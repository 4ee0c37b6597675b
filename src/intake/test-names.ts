/** Tests by the names that people use for them. */
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { normalised } from './near.ts';

/** By id, name or usual heading (`TUG`, `5xSTS`), whatever the case and the signs between; undefined where none fits. */
export function findTest(name: string, tests: readonly TestDefinition[]): TestDefinition | undefined {
  const word = normalised(name);
  return (
    tests.find((test) => test.id === name) ??
    tests.find((test) => [test.id, test.name, test.short_name, ...test.headings].some((each) => normalised(each) === word))
  );
}
