/** What may be typed at a prompt for each kind of answer, and what anything else is told. */
import { describe, expect, it } from 'vitest';
import { leafTyped, numberTyped, resultTyped } from '../../src/intake/interview/typed.ts';
import type { Leaf } from '../../src/session-keys.ts';

const TODAY = '2026-05-20';
const typed = (leaf: Leaf, text: string) => leafTyped(leaf, text, TODAY);
const value = (leaf: Leaf, text: string): unknown => {
  const found = typed(leaf, text);
  return 'value' in found ? found.value : `problem: ${found.problem}`;
};

describe('answers and choices', () => {
  it.each([
    ['y', 'yes'],
    ['YES', 'yes'],
    ['n', 'no'],
    ['u', 'unknown'],
    ['unk', 'unknown'],
  ])('%s is %s', (text, word) => expect(value({ kind: 'answer' }, text)).toBe(word));
  it('anything else is told the letters', () => {
    expect(value({ kind: 'answer' }, 'maybe')).toBe('problem: maybe is not an answer; type y, n or u (unknown)');
  });
  it('a choice by its beginning where it is the only one, or whole', () => {
    const options: Leaf = { kind: 'choice', options: ['none', 'stick', 'stick_two', 'frame'] };
    expect(value(options, 'F')).toBe('frame');
    expect(value(options, 'stick')).toBe('stick');
    expect(value(options, 'st')).toBe('problem: st is none of none, stick, stick_two, frame; the first letters are enough');
    expect(value(options, 'cane')).toContain('problem: cane is none of');
  });
});

describe('numbers', () => {
  it('plain ones; others are told what to write', () => {
    expect(numberTyped('12.8')).toEqual({ value: 12.8 });
    expect(numberTyped('12,8')).toEqual({ problem: '`12,8` has a decimal comma; write 12.8 with a point instead' });
    expect(value({ kind: 'number' }, '5')).toBe(5);
    expect(value({ kind: 'numbers' }, '5')).toBe(5);
  });
  it('falls as a number or several', () => {
    for (const text of ['s', 'S', 'several', 'Several']) expect(value({ kind: 'falls' }, text)).toBe('several');
    expect(value({ kind: 'falls' }, '2')).toBe(2);
    for (const text of ['severa', 'xs', 'sx', 'many']) expect(value({ kind: 'falls' }, text)).toContain('problem: ');
  });
  it.each([
    ['138/78', '138/78'],
    ['138 / 78', '138/78'],
    ['138 78', '138/78'],
    ['138 over 78', '138/78'],
    ['138over78', '138/78'],
    ['99/60', '99/60'],
  ])('pressure %s', (text, written) => expect(value({ kind: 'pressure' }, text)).toBe(written));
  it.each(['8/78', '1380/78', '138/7', '138/7800', '138', '138-78', 'x138/78', '138/78x'])('no pressure: %s', (text) =>
    expect(value({ kind: 'pressure' }, text)).toBe(
      `problem: \`${text}\` is not a blood pressure; write systolic/diastolic, such as 138/78, instead`,
    ),
  );
  it.each([
    ['7.5 14', 7.5, 14],
    ['7.5mg 14', 7.5, 14],
    ['7.5 mg 14 months', 7.5, 14],
    ['10, 3', 10, 3],
    ['10;3 month', 10, 3],
    ['10 MG 3.5 m', 10, 3.5],
  ])('dose %s', (text, daily_mg, months) => expect(value({ kind: 'steroid' }, text)).toEqual({ daily_mg, months }));
  it.each(['7.5', '7.5 g 14', '7,5 mg', 'x 7.5 14', '7.5 14 years', '7. 14'])('no dose: %s', (text) =>
    expect(value({ kind: 'steroid' }, text)).toBe(
      `problem: ${text}: type n, u, y, or the daily dose in mg and the months taken, such as 7.5 14`,
    ),
  );
  it('steroids by an answer', () => expect(value({ kind: 'steroid' }, 'n')).toBe('no'));
});

describe('days', () => {
  it.each(['date', 'event'] as const)('%s: as a date, or t for today', (kind) => {
    for (const text of ['t', 'T', 'today', 'Today']) expect(value({ kind }, text)).toBe(TODAY);
    expect(value({ kind }, '2026-05-11')).toBe('2026-05-11');
    for (const text of ['tod', 'xt', '11/05/2026', '2026-5-11', '2026-05-111', 'x2026-05-11', '2026-05-11x'])
      expect(value({ kind }, text)).toBe(
        `problem: ${text} is not a date written year-month-day; write it like 2026-05-11 (t is today)`,
      );
  });
  it('an event by an answer', () => {
    expect(value({ kind: 'event' }, 'y')).toBe('yes');
    expect(value({ kind: 'date' }, 'y')).toContain('problem: ');
  });
});

it('texts stand as they are, a country in capitals, the format as 1', () => {
  for (const kind of ['range', 'text', 'texts', 'reference'] as const) expect(value({ kind }, 'Ab 1')).toBe('Ab 1');
  expect(value({ kind: 'country' }, 'au')).toBe('AU');
  expect(value({ kind: 'format' }, 'x')).toBe(1);
});

describe('results', () => {
  it.each<[string, unknown]>([
    ['12.8', 12.8],
    ['4.2  6.0 5', [4.2, 6, 5]],
    ['unable could not rise', { unable: 'could not rise' }],
    ['UNABLE: could not rise', { unable: 'could not rise' }],
    ['declined - sore', { declined: 'sore' }],
    ['unable, sore', { unable: 'sore' }],
    ['unsafe balance had to be caught', { unsafe: 'had to be caught', why: 'balance' }],
    ['Unsafe Medical: chest tight', { unsafe: 'chest tight', why: 'medical' }],
    ['unsafe other, wet floor', { unsafe: 'wet floor', why: 'other' }],
    ['unsafe: balance - caught', { unsafe: 'caught', why: 'balance' }],
  ])('%s', (text, expected) => expect(resultTyped(text)).toEqual({ value: expected }));
  it('an outcome without its reason', () => {
    expect(resultTyped('unable')).toEqual({ problem: 'write the reason behind it, such as: unable could not rise without arms' });
    expect(resultTyped('declined: ')).toEqual({ problem: 'write the reason behind it, such as: declined sore wrist' });
  });
  it.each(['unsafe', 'unsafe balance', 'unsafe balance: ', 'unsafe had to be caught', 'unsafe medically unwell'])(
    '%s: what the danger was',
    (text) =>
      expect(resultTyped(text)).toEqual({
        problem:
          'write what the danger was and what happened, such as: unsafe balance had to be caught (balance, medical or other)',
      }),
  );
  it('the first number that is none is told', () => {
    expect(resultTyped('4.2 6,0 x')).toEqual({ problem: '`6,0` has a decimal comma; write 6.0 with a point instead' });
    for (const text of ['unables x', 'not unable x'])
      expect(resultTyped(text)).toHaveProperty('problem', expect.stringContaining('is not a number'));
  });
});
