/** The letter: requests first, urgency, basis; what must not be in it; template and names. */
import { describe, expect, test } from 'vitest';
import { letterDocx } from '../../src/report/letter/docx.ts';
import { NOBODY, parsePeople } from '../../src/report/letter/people.ts';
import { filledTemplate, PLACEHOLDERS } from '../../src/report/letter/template.ts';
import { letterText } from '../../src/report/letter/text.ts';
import type { People, Receiver } from '../../src/report/letter/types.ts';
import { letterFor } from './formats.ts';
import { joined } from './support.ts';
import { EMPTY, EXAMPLES, example, nobody, peopleNamed, URGENT, visitOf } from './visits.ts';

const textOf = (visit: ReturnType<typeof visitOf>, people: People = nobody, receiver: Receiver = 'gp'): string =>
  joined(letterText(letterFor(visit, people, receiver)));

describe('the letter of the 86-year-old, read alone', () => {
  const text = textOf(example('chair-86'));
  test('what is asked', () => expect(text).toContain('1. Please arrange a comprehensive assessment of the fall risk factors'));
  test('how urgent', () => {
    expect(text).toContain('Routine: nothing recorded needs you today.');
    expect(text).toContain('By 21 July 2026.');
  });
  test('on what basis', () => {
    expect(text).toContain('High risk of falls by the World Falls Guidelines 2022: lives in residential care or is in hospital.');
    expect(text).toContain('Two or more falls in the past year; an injury that needed a doctor; could not get up afterwards');
    expect(text).toContain('Compared with published tables: Pondal 2008');
  });
  test('the request stands in the first third', () => expect(text.indexOf('Please arrange')).toBeLessThan(text.length / 3));
});

describe('every letter', () => {
  test.each([...EXAMPLES.map((name) => [name, example(name)] as const), ['urgent', visitOf(URGENT)] as const])(
    '%s',
    (_name, visit) => {
      const letter = letterFor(visit);
      const text = textOf(visit);
      expect(letter.requests.length).toBeLessThanOrEqual(5);
      expect(letter.results.length).toBeLessThanOrEqual(8);
      // no false precision, no prediction, no verdict on a person, no unexplained short name of a test
      expect(text).not.toMatch(/\d\.\d{3}/);
      expect(text).not.toMatch(/percentile|probab|\bnormal\b|failed|non-compliant|faller/i);
      expect(text).not.toMatch(/\b(TUG|SPPB|FTSTS|MDC)\b/);
      expect(text).not.toMatch(/\b(start|stop|increase|reduce) (the |taking )?(medicine|tablet|oxygen)/i);
    },
  );

  test('an open red flag leads, by telephone today, and holds the exercise', () => {
    const letter = letterFor(visitOf(URGENT));
    expect(letter.urgency).toBe('URGENT');
    expect(letter.requests[0]?.when).toBe('Today: by telephone, this letter confirms it');
    expect(letter.doing).toEqual(['No exercise is started until you have seen the client.']);
  });

  test('low never comes without its own warning', () =>
    expect(textOf(example('copd-74'))).toContain('measure it again before relying on low'));

  test('an open level says what is missing; nothing asked is said in words', () => {
    const text = textOf(visitOf(EMPTY));
    expect(text).toContain('cannot be settled yet: at least low, at most high');
    expect(text).toContain('No action is needed from you.');
    expect(text).toContain('falls in the past year not recorded'.replace('falls', 'Falls'));
  });

  test('unable, ceiling, aid and declined are said', () => {
    const text = textOf(example('chair-86'));
    for (const words of ['34.2 s, wheeled frame', 'unable', 'stopped, balance lost', 'grip strength left (sore wrist)'])
      expect(text).toContain(words);
    expect(textOf(example('steady-66'))).toContain('at least 10 s');
  });

  test("the client's file asks nobody and keeps our own tasks", () => {
    const file = textOf(example('copd-74'), nobody, 'client-file');
    expect(file).toContain("For the client's file");
    expect(file).not.toContain('Dear');
    expect(file).toContain('Leg-strength work');
    expect(textOf(example('copd-74'), nobody, 'specialist')).toContain('To the specialist');
  });

  test('a Word file is a zip of its own', async () => {
    const bytes = await letterDocx(letterFor(example('chair-86')), 'letter');
    expect(bytes.length).toBeGreaterThan(4000);
  });
});

describe('names', () => {
  test('from a file of their own', () => {
    const people = parsePeople(
      'client: {name: A. Invented, born: 1951-02-03}\nto: {name: Dr B. Invented, address: [1 Road, Town]}\nfrom: {name: C., registration: 123}\ncopies: D.\n',
    );
    const text = textOf(example('chair-86'), people, 'gp');
    for (const words of [
      'A. Invented (our reference R-031)',
      'born 3 February 1951',
      'Dear Dr B. Invented,',
      '123',
      'Copies: D.',
    ])
      expect(text).toContain(words);
  });
  test('a mistyped key is refused, and a wrong day', () => {
    expect(() => parsePeople('client: {nmae: A}')).toThrow(/unknown key nmae in client/);
    expect(() => parsePeople('client: {born: 3 May}')).toThrow(/client\.born/);
    expect(parsePeople('')).toEqual(NOBODY);
  });
});

describe('template', () => {
  const letter = letterFor(example('copd-74'), peopleNamed('<b>A & B</b>'));
  test('every placeholder exists, and every part of a letter is listed', () => {
    for (const [name] of PLACEHOLDERS) {
      const [list, inner] = name.split('[]');
      const template = name.includes('[]') ? `{% for each in ${list} %}{{ each${inner ?? ''} }}{% endfor %}` : `{{ ${name} }}`;
      expect(() => filledTemplate(template, letter, 'text')).not.toThrow();
    }
    const listed = new Set(PLACEHOLDERS.map(([name]) => name.replace(/\[\].*/, '')));
    expect(Object.keys(letter).filter((key) => !listed.has(key))).toEqual([]);
  });
  test('slots are escaped for the format; the escaping cannot be switched off', () => {
    expect(filledTemplate('<p>{{ copies }}</p>', letter, 'html')).toBe('<p>Copies: &lt;b&gt;A &amp; B&lt;/b&gt;</p>');
    expect(filledTemplate('{{ copies | raw }}', letter, 'html')).not.toContain('<b>');
    expect(filledTemplate('{{ copies }}', letter, 'markdown')).toContain('\\<b\\>A \\& B');
    expect(filledTemplate('{{ to }}', letter, 'html')).not.toContain('<b>');
  });
  test('an unknown slot, a wrong sign and a file of the disk are refused', () => {
    expect(() => filledTemplate('{{ clinet }}', letter, 'text')).toThrow(/clinet/);
    expect(() => filledTemplate('{% for x in %}', letter, 'text')).toThrow();
    expect(() => filledTemplate("{% include '/etc/hostname' %}", letter, 'text')).toThrow();
    expect(() => filledTemplate('{{ copies.constructor.name }}', letter, 'text')).toThrow();
  });
});
