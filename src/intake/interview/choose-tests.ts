/** "tug 5sts sls" -> tests of the catalogue, in its order; or what to type instead. */
import type { TestDefinition } from '../../evidence/schema/catalogue.ts';
import { nearest, normalised } from '../near.ts';
import { findTest } from '../test-names.ts';

export type Chosen = { readonly tests: readonly TestDefinition[] } | { readonly problem: string };

const namesOf = (test: TestDefinition): string[] => [test.id, test.name, test.short_name, ...test.headings];

/** A test that is worked out from others is entered by its parts. */
function withParts(test: TestDefinition, tests: readonly TestDefinition[]): TestDefinition[] {
  return test.derived_from.length === 0 ? [test] : tests.filter(({ id }) => test.derived_from.includes(id));
}

function oneTest(word: string, tests: readonly TestDefinition[]): Chosen {
  const exact = findTest(word, tests);
  if (exact !== undefined) return { tests: withParts(exact, tests) };
  const begun = tests.filter((test) => namesOf(test).some((name) => normalised(name).startsWith(normalised(word))));
  const [only] = begun;
  if (only !== undefined && begun.length === 1) return { tests: withParts(only, tests) };
  if (begun.length > 1) return { problem: `${word} can be ${begun.map(({ id }) => id).join(' or ')}; write which` };
  const near = nearest(word, tests.flatMap(namesOf));
  return { problem: `there is no test ${word}${near === undefined ? '; ? lists them' : `; perhaps ${near}`}` };
}

/** Words apart by blanks or commas; each is an id, a usual short name or the beginning of one. */
export function chooseTests(text: string, tests: readonly TestDefinition[]): Chosen {
  const words = text.split(/[\s,;]+/).filter((word) => word !== '');
  const found = words.map((word) => oneTest(word, tests));
  const problem = found.find((each) => 'problem' in each);
  if (problem !== undefined) return problem;
  const ids = new Set(found.flatMap((each) => ('tests' in each ? each.tests.map(({ id }) => id) : [])));
  return { tests: tests.filter(({ id }) => ids.has(id)) };
}
