/** References that lead nowhere are found, each with what was probably meant. */
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { nothingGathered } from '../../src/evidence/parse.ts';
import { fieldsExist, pathwaysHoldTogether, pretestRatesStand } from '../../src/evidence/pathway-checks.ts';
import { FallRate } from '../../src/evidence/schema/numbers.ts';
import { type Pathway, PathwayFile, RedFlag } from '../../src/evidence/schema/pathway.ts';
import { cdc, worldGuidelines } from '../risk/support.ts';

const BASIS = '{status: common-practice, note: invented}';
const follow = `{text: Again, within_days: 365, basis: ${BASIS}}`;
const SMALL = `
id: small
name: Small
source: invented
kind: two_level
items: [{id: falls, question: A fall?, label: fall, kind: question, from: [{when: {field: history.falls_past_year, at_least: 1}, values: [yes]}], basis: ${BASIS}}]
steps: [{id: fell, question: A fall?, condition: {item: falls}, yes: {level: at_risk}, no: {level: not_at_risk}, basis: ${BASIS}}]
levels:
  - {id: not_at_risk, label: No, meaning: No, actions: [{text: Go on, basis: ${BASIS}}], follow_up: ${follow}}
  - {id: at_risk, label: Yes, meaning: Yes, actions: [{text: Stop, basis: ${BASIS}}], follow_up: ${follow}}
`;
const withPathway = (pathway: Pathway) => ({ ...nothingGathered(), pathways: [pathway] });
const messages = (text: string): string =>
  pathwaysHoldTogether(withPathway(PathwayFile.parse(parse(text))))
    .map((problem) => problem.message)
    .join('\n');

test("the project's own pathways hold together", () => {
  for (const pathway of [worldGuidelines, cdc]) {
    expect(pathwaysHoldTogether(withPathway(pathway))).toEqual([]);
    expect(fieldsExist(withPathway(pathway))).toEqual([]);
  }
  expect(messages(SMALL)).toBe('');
});

test.each([
  [
    'a level that is not there',
    ['level: at_risk', 'level: at_rsk'],
    'leads to level "at_rsk", which is not there; perhaps "at_risk" is meant',
  ],
  ['a step that is not there', ['no: {level: not_at_risk}', 'no: {step: next}'], 'leads to step "next"'],
  [
    'an item that is not there',
    ['{item: falls}', '{item: fals}'],
    'asks for item "fals", which is not there; perhaps "falls" is meant',
  ],
  ['a value that the item does not have', ['{item: falls}', '{item: falls, is: several}'], 'item "falls" has no value "several"'],
  ['a rule that gives a foreign value', ['values: [yes]', 'values: [maybe]'], 'a rule gives "maybe"'],
  ['a step about a field', ['{item: falls}', '{field: history.fall_injury, is: yes}'], 'not an item'],
])('%s', (_, [from = '', to = ''], message) => {
  expect(messages(SMALL.replace(from, to))).toContain(message);
});

test('an option that replaces nothing, a caveat at a level that is not there', () => {
  const variant = `variants: [{id: other, name: Other, text: Other, basis: ${BASIS}, steps: [{id: fel, question: A fall?, condition: {item: falls}, yes: {level: at_risk}, no: {level: at_risk}, basis: ${BASIS}}]}]`;
  const caveat = `caveats: [{id: odd, when: {field: client.age, below: 65}, levels: [low], text: Odd, basis: ${BASIS}}]`;
  expect(messages(SMALL + variant)).toContain('there is no step "fel" to replace; perhaps "fell" is meant');
  expect(messages(SMALL + caveat)).toContain('level "low" is not there');
});

const flagOver = (field: string) =>
  RedFlag.parse({
    id: 'odd',
    tier: 'same_day',
    ask: 'a question',
    when: { any: [{ field, is: 'yes' }] },
    finding: 'F',
    because: 'B',
    action: 'A',
    basis: { status: 'common-practice', note: 'invented' },
  });
const fieldProblems = (field: string): string =>
  fieldsExist({ ...nothingGathered(), redFlags: [flagOver(field)] })
    .map((problem) => problem.message)
    .join('\n');

test('a red flag over a misspelt field, which would never be raised', () => {
  expect(fieldProblems('redflags.chest_pian')).toContain('"redflags.chest_pian"; perhaps "redflags.chest_pain" is meant');
});
test('recorded and derived fields are known, those of the risk result only in the plan', () => {
  for (const field of [
    'health.oral_steroid.months',
    'vitals.bp_standing_3min_systolic',
    'vitals.spo2_within_target',
    'client.age',
  ])
    expect(fieldProblems(field)).toBe('');
  expect(fieldProblems('risk.level')).toContain('risk.level');
});
test('a figure that a probability starts from needs its interval', () => {
  const rate = FallRate.parse({
    id: 'odd',
    source: 'invented',
    location: 'p. 1',
    status: 'abstract',
    outcome: 'A fall in a year',
    probability: 0.3,
    pretest_for: ['general'],
    population: { description: 'people' },
  });
  expect(pretestRatesStand({ ...nothingGathered(), fallRates: [rate] })).toHaveLength(1);
});
