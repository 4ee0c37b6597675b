/** What each mistyped number is told: what is wrong with it, with what was typed, and what to write instead. */
import { describe, expect, it } from 'vitest';
import { explainNumber, explainNumberFormat, isPlainNumber } from '../../src/intake/numbers.ts';

const told = (text: string) => {
  const { code, message, hint } = explainNumber(text);
  return [code, message, hint];
};

describe('plain', () => {
  it.each(['0', '-0.5', '10', '100.05', '7'])('%s', (text) => expect(isPlainNumber(text)).toBe(true));
  it.each(['00', '-', '1.', '.1', '1.2.3', ' 1', '1 ', '1s', 'a1', '1,2', '--1', '01.5'])('not "%s"', (text) =>
    expect(isPlainNumber(text)).toBe(false),
  );
});

describe('told', () => {
  it('a decimal comma: the number with a point', () => {
    expect(told('12,8')).toEqual(['decimal_comma', '`12,8` has a decimal comma', 'write 12.8 with a point instead']);
    expect(told('-0,05')[2]).toBe('write -0.05 with a point instead');
    expect(told(' 12,8 ')[1]).toBe('`12,8` has a decimal comma');
    for (const other of ['12,8,1', 'a12,8', '12,8b', '12,', ',8']) expect(told(other)[0]).not.toBe('decimal_comma');
  });
  it('quotes: the number without them', () => {
    expect(told('12.8')).toEqual(['quoted_number', '`12.8` stands in quotes', 'write 12.8 without quotes']);
    expect(told(' 12.8 ')[0]).toBe('quoted_number');
  });
  it('at least: the number, and where the watch was stopped the ceiling', () => {
    const hint = (number: string) =>
      `write the number measured; where the watch was stopped there, write {value: ${number}, ceiling: ${number}} instead`;
    expect(told('30+')).toEqual(['inexact_number', '`30+` is "at least", not a number', hint('30')]);
    expect(told('30,5 +')[2]).toBe(hint('30.5'));
    expect(told('30.25+')[2]).toBe(hint('30.25'));
    expect(told('30   +')[2]).toBe(hint('30'));
    for (const other of ['+30', '30+5', '30++', 'x30+', '30.+']) expect(told(other)[1]).not.toContain('at least');
  });
  it.each([
    '<5',
    '< 5',
    '<= 5',
    '>5',
    '>=30',
    '≤5',
    '≥ 5.5',
    '~12',
    '≈12',
    '±2',
    'about 12',
    'About 12,5',
    'under 5',
    'over 5',
    '12-14',
    '12 - 14',
    '12–14',
    '12 to 14',
    '12 TO 14',
    '1.5-2,5',
  ])('%s: a bound or a range, not a number', (text) =>
    expect(told(text)).toEqual([
      'inexact_number',
      `\`${text}\` is a bound or a range, not a number`,
      'write the number measured, or leave the line out where there is none',
    ]),
  );
  it.each(['x<5', 'roundabout 12', '<', '<x', '12-', '-14', '12-14-16', 'from 12-14', '12.-14'])('%s is no range', (text) =>
    expect(told(text)[0]).not.toBe('inexact_number'),
  );
  it('a colon: minutes and seconds as seconds', () => {
    const hint = (seconds: string) => `write ${seconds} for minutes and seconds, or a point for the decimals, instead`;
    expect(told('12:30')).toEqual(['clock_time', '`12:30` has a colon', hint('750')]);
    expect(told('0:12.5')[2]).toBe(hint('12.5'));
    expect(told('1:05,25')[2]).toBe(hint('65.25'));
    expect(told('100:00')[2]).toBe(hint('6000'));
    for (const other of ['12:60', '12:3', '12:300', 'x12:30', '12:30 h', '1000:00', '12:30.'])
      expect(told(other)[0]).not.toBe('clock_time');
  });
  it.each([
    ['12.8 s', '12.8'],
    ['12,8s', '12.8'],
    ['-3 kg', '-3'],
    ['94%', '94'],
    ['94 %', '94'],
    ['12 seconds', '12'],
    ["5'", '5'],
    ['5"', '5'],
    ['12°', '12'],
    ['0.9 m/s', '0.9'],
    ['3 µg', '3'],
    ['4 /min', '4'],
    ['20 kg/m2', '20'],
    ['12.8 S', '12.8'],
  ])('%s: a unit behind the number, the number alone', (text, number) =>
    expect(told(text)).toEqual(['unit_in_number', `\`${text}\` has more than the number in it`, `write ${number} instead`]),
  );
  it.each(['twelve', '', 's 12', 'x 12 s', '12 s 5 x', '1 000', '.'])('"%s": not a number', (text) =>
    expect(told(text)).toEqual(['not_a_number', `\`${text}\` is not a number`, 'write a number such as 12.8 instead']),
  );
});

describe('a form that people read in more than one way', () => {
  it('is told the number as it was read', () =>
    expect(explainNumberFormat('08', 8)).toEqual({
      code: 'number_format',
      message: '`08` may be read in more than one way',
      hint: 'write 8 instead',
    }));
  it('is told to measure where it is no number', () =>
    expect(explainNumberFormat('.inf', Number.POSITIVE_INFINITY).hint).toBe('write the number measured instead'));
});
