import { expect, test } from 'vitest';
import { evaluate, type Truth } from '../../src/evidence/condition.ts';
import { describe as inWords } from '../../src/evidence/describe.ts';
import type { Condition } from '../../src/evidence/schema/condition.ts';
import { type FieldInputs, facts, type TestInputs } from './support.ts';

const yes: Condition = { field: 'a.yes', is: 'yes' };
const no: Condition = { field: 'a.no', is: 'yes' };
const unknown: Condition = { field: 'a.missing', is: 'yes' };
const base = facts({ 'a.yes': 'yes', 'a.no': 'no', 'a.unknown': 'unknown', 'a.word': 'stick', 'a.number': 5 });

test.each<[string, Condition, Truth]>([
  ['all: unknown with yes', { all: [yes, unknown] }, 'unknown'],
  ['all: unknown with no', { all: [unknown, no] }, 'no'],
  ['all: yes', { all: [yes, yes] }, 'yes'],
  ['any: unknown with yes', { any: [unknown, yes] }, 'yes'],
  ['any: unknown with no', { any: [unknown, no] }, 'unknown'],
  ['any: no', { any: [no, no] }, 'no'],
  ['not unknown', { not: unknown }, 'unknown'],
  ['not yes', { not: yes }, 'no'],
  ['any recorded: yes wins', { any_recorded: [no, yes, unknown] }, 'yes'],
  ['any recorded: one no is enough', { any_recorded: [no, unknown] }, 'no'],
  ['any recorded: none recorded', { any_recorded: [unknown, unknown] }, 'unknown'],
  ['an answer of unknown', { field: 'a.unknown', is: 'yes' }, 'unknown'],
  ['an answer of unknown asked for', { field: 'a.unknown', is: 'unknown' }, 'unknown'],
  ['recorded', { field: 'a.no', recorded: true }, 'yes'],
  ['an answer of unknown is not recorded', { field: 'a.unknown', recorded: true }, 'no'],
  ['missing is not recorded', { field: 'a.missing', recorded: false }, 'yes'],
  ['one of several words', { field: 'a.word', is: ['frame', 'stick'] }, 'yes'],
  ['none of several words', { field: 'a.word', is: ['frame', 'other'] }, 'no'],
  ['a number itself', { field: 'a.number', is: 5 }, 'yes'],
  ['at least', { field: 'a.number', at_least: 5 }, 'yes'],
  ['above', { field: 'a.number', above: 5 }, 'no'],
  ['at most', { field: 'a.number', at_most: 5 }, 'yes'],
  ['below', { field: 'a.number', below: 5 }, 'no'],
  ['between', { field: 'a.number', above: 4, below: 6 }, 'yes'],
  ['a word where a number is asked', { field: 'a.word', at_least: 1 }, 'unknown'],
])('%s', (_, condition, expected) => {
  expect(evaluate(condition, base)).toBe(expected);
});

test.each<[string, TestInputs, Condition, Truth]>([
  ['slower than', { timed_up_and_go: 15.1 }, { test: 'timed_up_and_go', above: 15 }, 'yes'],
  ['not slower than', { timed_up_and_go: 15 }, { test: 'timed_up_and_go', above: 15 }, 'no'],
  ['missing', {}, { test: 'timed_up_and_go', above: 15 }, 'unknown'],
  ['declined', { timed_up_and_go: 'not_tested' }, { test: 'timed_up_and_go', above: 15 }, 'unknown'],
  ['left out for a medical reason', { timed_up_and_go: 'unsafe_medical' }, { test: 'timed_up_and_go', above: 15 }, 'unknown'],
  ['unable is slower than anything', { timed_up_and_go: 'unable' }, { test: 'timed_up_and_go', above: 15 }, 'yes'],
  ['unable is slower: at least', { timed_up_and_go: 'unable' }, { test: 'timed_up_and_go', at_least: 900 }, 'yes'],
  ['unable is never quick', { timed_up_and_go: 'unable' }, { test: 'timed_up_and_go', at_most: 900 }, 'no'],
  ['unable falls short', { tandem_stance: 'unable' }, { test: 'tandem_stance', below: 10 }, 'yes'],
  ['unable reaches nothing', { tandem_stance: 'unable' }, { test: 'tandem_stance', at_least: 0 }, 'no'],
  ['ceiling: up to it', { tandem_stance: { worst: 10, atLeast: true } }, { test: 'tandem_stance', at_least: 10 }, 'yes'],
  ['ceiling: beyond it', { tandem_stance: { worst: 10, atLeast: true } }, { test: 'tandem_stance', at_least: 11 }, 'unknown'],
  ['ceiling: not below it', { tandem_stance: { worst: 10, atLeast: true } }, { test: 'tandem_stance', below: 10 }, 'no'],
  [
    'ceiling: below something higher',
    { tandem_stance: { worst: 10, atLeast: true } },
    { test: 'tandem_stance', below: 30 },
    'unknown',
  ],
  ['ceiling: at most it', { tandem_stance: { worst: 10, atLeast: true } }, { test: 'tandem_stance', at_most: 10 }, 'unknown'],
  [
    'standing',
    { grip_strength: { worst: 20, standing: 'below' } },
    { test: 'grip_strength', standing: ['below', 'well_below'] },
    'yes',
  ],
  ['no standing', { grip_strength: 20 }, { test: 'grip_strength', standing: ['below'] }, 'unknown'],
  ['unable stands well below', { grip_strength: 'unable' }, { test: 'grip_strength', standing: ['well_below'] }, 'yes'],
  ['flagged', { grip_strength: { worst: 20, flagged: true } }, { test: 'grip_strength', flagged: true }, 'yes'],
  ['not flagged', { grip_strength: { worst: 20, flagged: false } }, { test: 'grip_strength', flagged: true }, 'no'],
  ['nothing to flag by', { grip_strength: 20 }, { test: 'grip_strength', flagged: true }, 'unknown'],
  ['unable is flagged', { grip_strength: 'unable' }, { test: 'grip_strength', flagged: true }, 'yes'],
  ['unable outcome of a missing test', {}, { test: 'grip_strength', outcome: 'unable' }, 'unknown'],
  ['unable outcome', { grip_strength: 'unable' }, { test: 'grip_strength', outcome: 'unable' }, 'yes'],
  ['not tested is a fact', {}, { test: 'grip_strength', outcome: 'not_tested' }, 'yes'],
  ['medical reason is a fact', {}, { test: 'grip_strength', outcome: 'unsafe_medical' }, 'no'],
  ['a result', { grip_strength: 20 }, { test: 'grip_strength' }, 'yes'],
  ['no result', {}, { test: 'grip_strength' }, 'unknown'],
])('test: %s', (_, tests, condition, expected) => {
  expect(evaluate(condition, facts({}, tests))).toBe(expected);
});

test.each<[readonly string[], Condition, Truth]>([
  [['yes'], { item: 'x' }, 'yes'],
  [['no'], { item: 'x' }, 'no'],
  [['no', 'yes'], { item: 'x' }, 'unknown'],
  [['one', 'several'], { item: 'x', is: ['one', 'several'] }, 'yes'],
  [['none', 'several'], { item: 'x', is: 'several' }, 'unknown'],
])('item that may be %s', (possible, condition, expected) => {
  expect(evaluate(condition, { ...facts({}), item: () => possible })).toBe(expected);
});

const labels = { test: () => ({ name: 'Timed up and go', unit: 's' }), field: () => undefined };
test.each<[FieldInputs, TestInputs, Condition, readonly string[]]>([
  [{}, { timed_up_and_go: 16.2 }, { test: 'timed_up_and_go', above: 15 }, ['timed up and go 16.2 s is over 15 s']],
  [{}, { timed_up_and_go: 12.8 }, { test: 'timed_up_and_go', above: 15 }, ['timed up and go 12.8 s is not over 15 s']],
  [{}, { timed_up_and_go: 'unable' }, { test: 'timed_up_and_go', above: 15 }, ['timed up and go: unable']],
  [{}, {}, { test: 'timed_up_and_go', above: 15 }, ['timed up and go not tested']],
  [
    { 'health.clinical_frailty_scale': 6 },
    {},
    { field: 'health.clinical_frailty_scale', at_least: 5 },
    ['clinical frailty scale 6 is 5 or more'],
  ],
  [
    { 'history.feels_unsteady': 'yes' },
    {},
    { any: [{ field: 'history.feels_unsteady', is: 'yes' }, unknown] },
    ['feels unsteady: yes'],
  ],
  [{}, {}, { all: [unknown, { field: 'a.b_c', is: 'yes' }] }, ['missing not recorded', 'b c not recorded']],
  [
    { 'health.clinical_frailty_scale': 6 },
    { timed_up_and_go: 10 },
    {
      any_recorded: [
        { field: 'health.clinical_frailty_scale', at_least: 5 },
        { test: 'timed_up_and_go', above: 15 },
      ],
    },
    ['clinical frailty scale 6 is 5 or more', 'although timed up and go 10 s is not over 15 s'],
  ],
])('in words: %j %j', (fields, tests, condition, expected) => {
  expect(inWords(condition, facts(fields, tests), labels)).toEqual(expected);
});
