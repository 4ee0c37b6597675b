/**
 * The session file as a zod schema, made of the tables that the reader itself uses: for the JSON Schema an editor checks
 * against. It says less than the reader (no limits, no contradictions), and is loaded only where it is asked for.
 */
import { z } from 'zod';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import {
  CLEARANCE_KEYS,
  CLIENT_KEYS,
  COURSE_KEYS,
  FIELD_GROUPS,
  type Key,
  type Keys,
  type Leaf,
  MEASURED_KEYS,
  OUTCOME_KEYS,
  RISK_KEYS,
  ROOT_KEYS,
  STEROID_KEYS,
} from '../session-keys.ts';
import { PLAN_EXERCISE_KEYS, PLAN_KEYS } from '../session-plan-keys.ts';
import { ANSWER_WORDS, COUNTRY, PRESSURE, RANGE, TEXT } from './explain.ts';

function leafSchema(leaf: Leaf): z.ZodType {
  switch (leaf.kind) {
    case 'answer':
      return z.union([z.enum(ANSWER_WORDS), z.boolean()]);
    case 'choice':
      return z.enum(leaf.options);
    case 'number':
      return z.number();
    case 'numbers':
      return z.union([z.number(), z.array(z.number()).min(1)]);
    case 'falls':
      return z.union([z.number(), z.literal('several')]);
    case 'steroid':
      return z.union([leafSchema({ kind: 'answer' }), mapping(STEROID_KEYS)]);
    case 'pressure':
      return z.string().regex(PRESSURE);
    case 'event':
      return z.union([leafSchema({ kind: 'answer' }), z.iso.date()]);
    case 'range':
      return z.union([z.number(), z.string().regex(RANGE)]);
    case 'date':
      return z.iso.date();
    case 'text':
      return z.string().regex(TEXT.pattern).max(TEXT.longest);
    case 'texts':
      return z.union([leafSchema({ kind: 'text' }), z.array(leafSchema({ kind: 'text' })).min(1)]);
    case 'reference':
      return z.union([z.string().regex(TEXT.pattern).max(TEXT.longestReference), z.number()]);
    case 'country':
      return z.string().regex(COUNTRY);
    case 'format':
      return z.literal(1);
  }
}

/** `falls_past_year` -> "Falls past year": an editor shows it above the description. */
const titleOf = (name: string): string => `${name.charAt(0).toUpperCase()}${name.slice(1).replaceAll('_', ' ')}`;

function keySchema(name: string, key: Key): z.ZodType {
  const schema = leafSchema(key.leaf).meta({ title: titleOf(name), description: key.about });
  return key.required === true ? schema : schema.nullish();
}

/** A strict object of these keys; an empty value is as good as an absent key. */
function mapping(keys: Keys): z.ZodObject {
  return z.strictObject(Object.fromEntries(Object.entries(keys).map(([name, key]) => [name, keySchema(name, key)])));
}

/** The forms of a result, made once: in the JSON Schema every test then points to the same definition. */
interface Forms {
  readonly plain: z.ZodType;
  readonly course: z.ZodType;
  readonly sided: z.ZodType;
}

/** One side of a test: a number, a list of trials, or one of the written forms. */
function resultSchema(keys: Keys): z.ZodType {
  return z.union([z.number(), z.array(z.number()).min(1), mapping(keys), mapping(OUTCOME_KEYS), z.null()]);
}

function formsOfResults(): Forms {
  const plain = resultSchema(MEASURED_KEYS);
  const { ceiling, aid, note } = mapping(MEASURED_KEYS).shape;
  return {
    plain,
    course: resultSchema({ ...MEASURED_KEYS, ...COURSE_KEYS }),
    sided: z.union([plain, z.strictObject({ right: plain.optional(), left: plain.optional(), ceiling, aid, note })]),
  };
}

function testSchema(test: TestDefinition, { plain, course, sided }: Forms): z.ZodType {
  const form = test.course ? course : test.sided ? sided : plain;
  const unit = test.unit_text === '' ? '' : ` (${test.unit_text})`;
  return form.optional().meta({ title: `${test.name}${unit}`, description: test.protocol });
}

/** The whole file, for the tests of this catalogue. */
export function sessionSchema(tests: readonly TestDefinition[]): z.ZodObject {
  const forms = formsOfResults();
  return z.strictObject({
    ...mapping(ROOT_KEYS).shape,
    client: mapping(CLIENT_KEYS),
    ...Object.fromEntries(Object.entries(FIELD_GROUPS).map(([group, keys]) => [group, mapping(keys).nullish()])),
    clearance: z.union([mapping(CLEARANCE_KEYS), z.array(mapping(CLEARANCE_KEYS)).min(1)]).nullish(),
    risk: mapping(RISK_KEYS).nullish(),
    plan: mapping(PLAN_KEYS)
      .extend({ exercises: z.record(z.string(), mapping(PLAN_EXERCISE_KEYS)).nullish() })
      .nullish(),
    tests: z.strictObject(Object.fromEntries(tests.map((test) => [test.id, testSchema(test, forms)]))).nullish(),
  });
}

/** The same as a JSON Schema of draft 7, the newest that editors' YAML support reads. */
export function sessionJsonSchema(tests: readonly TestDefinition[]): object {
  const schema = z.toJSONSchema(sessionSchema(tests), { target: 'draft-7', io: 'input', reused: 'ref' });
  return {
    ...schema,
    title: 'A visit, as footing reads it',
    description: 'One file a visit; format, assessed and client are needed.',
  };
}
