/** Says in words why a condition came out as it did: "timed up and go 16.2 s is over 15 s". For "because" lines. */
import { type BoundKind, boundsOf, evaluate, type Facts, isRecorded, type Truth } from './condition.ts';
import type { Condition, FieldCondition, TestCondition } from './schema/condition.ts';

/** A name for running text and the unit that people read after a number (empty for a bare score). */
export interface Label {
  readonly name: string;
  readonly unit: string;
}

/** How fields, tests and items are called. What is missing here gets its id in words, without a unit. */
export interface Labels {
  field?(path: string): Label | undefined;
  test?(id: string): Label | undefined;
  item?(id: string): string | undefined;
}

const BOUND_WORDS: Readonly<Record<BoundKind, (bound: string) => string>> = {
  at_least: (bound) => `${bound} or more`,
  above: (bound) => `over ${bound}`,
  at_most: (bound) => `${bound} or less`,
  below: (bound) => `under ${bound}`,
};

const inWords = (id: string): string => (id.split('.').at(-1) ?? id).replaceAll('_', ' ');

/** First letter small, so that a catalogue name can stand inside a sentence; names such as "CDC" keep theirs. */
function insideSentence(name: string): string {
  return /^[A-Z][a-z]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

function fieldLabel(path: string, labels: Labels): Label {
  const label = labels.field?.(path);
  return { name: insideSentence(label?.name ?? inWords(path)), unit: label?.unit ?? '' };
}

/** As it stands inside a sentence; without a label the id in words and no unit. */
export function testLabel(id: string, labels: Labels): Label {
  const label = labels.test?.(id);
  return { name: insideSentence(label?.name ?? inWords(id)), unit: label?.unit ?? '' };
}

/** A number with its unit as people write it: `88 %`, `16.2 s`, `4`. */
export function withUnit(value: number, unit: string): string {
  return unit === '' ? String(value) : `${value} ${unit}`;
}

type BoundTruth = (kind: BoundKind, bound: number) => Truth;

function boundLines(subject: string, unit: string, condition: FieldCondition | TestCondition, truthOf: BoundTruth): string[] {
  return boundsOf(condition).map(({ kind, bound }) => {
    const words = BOUND_WORDS[kind](withUnit(bound, unit));
    const found = truthOf(kind, bound);
    if (found === 'unknown') return `${subject} does not say whether it is ${words}`;
    return `${subject} is ${found === 'yes' ? '' : 'not '}${words}`;
  });
}

function describeField(condition: FieldCondition, facts: Facts, labels: Labels): string[] {
  const value = facts.field(condition.field);
  const { name, unit } = fieldLabel(condition.field, labels);
  if (!isRecorded(value)) return [`${name} not recorded`];
  if (typeof value === 'number' && boundsOf(condition).length > 0) {
    const subject = `${name} ${withUnit(value, unit)}`;
    return boundLines(subject, unit, condition, (kind, bound) => evaluate({ field: condition.field, [kind]: bound }, facts));
  }
  // "recorded" alone only guards another condition and has nothing to tell
  if (condition.is === undefined) return [];
  return [`${name}: ${typeof value === 'number' ? withUnit(value, unit) : value.replaceAll('_', ' ')}`];
}

function describeTest(condition: TestCondition, facts: Facts, labels: Labels): string[] {
  const { name, unit } = testLabel(condition.test, labels);
  const fact = facts.test(condition.test);
  if (fact === undefined || fact.outcome === 'not_tested') return [`${name} not tested`];
  if (fact.outcome === 'unsafe_medical') return [`${name} not tested for a medical reason`];
  if (fact.outcome === 'unable') return [`${name}: unable`];
  if (fact.worst === null) return [`${name}: no value`];
  const subject = `${name} ${fact.atLeast ? 'at least ' : ''}${withUnit(fact.worst, unit)}`;
  const lines = boundLines(subject, unit, condition, (kind, bound) => evaluate({ test: condition.test, [kind]: bound }, facts));
  if (condition.standing !== undefined)
    lines.push(
      `${subject} is ${fact.standing === null ? 'without a standing' : `${fact.standing.replaceAll('_', ' ')} for age`}`,
    );
  if (condition.flagged !== undefined) lines.push(`${subject} meets ${fact.flagged === true ? 'a' : 'no'} mark that counts`);
  return lines.length === 0 ? [subject] : lines;
}

function describeSeveral(parts: readonly Condition[], wanted: Truth, facts: Facts, labels: Labels): string[] {
  return parts.filter((part) => evaluate(part, facts) === wanted).flatMap((part) => [...describe(part, facts, labels)]);
}

/** Where instruments disagree, the one that found nothing is shown beside the one that did. */
function describeRecorded(parts: readonly Condition[], wanted: Truth, facts: Facts, labels: Labels): string[] {
  const lines = describeSeveral(parts, wanted, facts, labels);
  if (wanted !== 'yes') return lines;
  return [...lines, ...describeSeveral(parts, 'no', facts, labels).map((line) => `although ${line}`)];
}

/**
 * What decided a condition, one short line a finding: for `yes` and `no` the parts that made it so, for `unknown` what is
 * missing. Without repeats; empty where the condition only asks whether something is recorded.
 */
export function describe(condition: Condition, facts: Facts, labels: Labels = {}): readonly string[] {
  const found = evaluate(condition, facts);
  let lines: readonly string[];
  if ('field' in condition) lines = describeField(condition, facts, labels);
  else if ('test' in condition) lines = describeTest(condition, facts, labels);
  else if ('item' in condition) lines = [labels.item?.(condition.item) ?? inWords(condition.item)];
  else if ('not' in condition) lines = describe(condition.not, facts, labels);
  else if ('any_recorded' in condition) lines = describeRecorded(condition.any_recorded, found, facts, labels);
  else lines = describeSeveral('any' in condition ? condition.any : condition.all, found, facts, labels);
  return [...new Set(lines)];
}
