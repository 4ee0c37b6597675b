/** Whatever stands in a file comes out harmless in every format; and nothing a program blurts out reaches a reader. */
import { Packer } from 'docx';
import { describe, expect, test } from 'vitest';
import { letterDocx } from '../../src/report/letter/docx.ts';
import { everyFormat, letterFor } from './formats.ts';
import { EMPTY, EXAMPLES, example, HOSTILE, hostileVisit, peopleNamed, URGENT, visitOf } from './visits.ts';

const INVISIBLE =
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\u{e0000}-\u{e007f}\p{Surrogate}]/u;
const isHtml = (format: string): boolean => format === 'html' || format === 'letter, html' || format === 'letter, template';
const isMarkdown = (format: string): boolean => format.endsWith('markdown');
const isRecord = (format: string): boolean => format === 'json' || format === 'fhir';

/** What the page is made of: names of elements, attributes and their order, without texts. */
const skeleton = (html: string): string => (html.match(/<\/?[a-zA-Z][^\s>/]*/g) ?? []).join('');

describe.each(HOSTILE.map((text) => [text.slice(0, 40), text]))('%s', (_name, text) => {
  const formats = everyFormat(hostileVisit(text), peopleNamed(text));
  const calm = everyFormat(hostileVisit('calm'), peopleNamed('calm'));

  test.each(Object.keys(formats))('in %s: no control or hidden character', (format) => {
    expect(formats[format]).not.toMatch(INVISIBLE);
  });

  test.each(Object.keys(formats).filter(isHtml))('in %s: the same elements as with a harmless text', (format) => {
    expect(skeleton(formats[format] ?? '')).toBe(skeleton(calm[format] ?? ''));
    expect(formats[format]).not.toMatch(/<script|<img|<iframe/i);
  });

  test.each(Object.keys(formats).filter(isRecord))('in %s: still one JSON value', (format) => {
    expect(() => JSON.parse(formats[format] ?? '')).not.toThrow();
  });

  test.each(Object.keys(formats).filter(isMarkdown))('in %s: no raw markup', (format) => {
    expect(formats[format]).not.toMatch(/(?<!\\)<[a-z/]/i);
    expect(formats[format]).not.toMatch(/(?<!\\)\]\(/);
  });

  test('in a Word file it is text', async () => {
    expect(Packer).toBeDefined();
    const bytes = await letterDocx(letterFor(hostileVisit(text), peopleNamed(text)), 'a4');
    // a zip archive
    expect([...bytes.slice(0, 2)]).toEqual([0x50, 0x4b]);
  });
});

const VISITS = [
  ...EXAMPLES.map((name) => [name, () => example(name)] as const),
  ['nothing asked', () => visitOf(EMPTY)] as const,
  ['a red flag', () => visitOf(URGENT)] as const,
];

describe.each(VISITS)('%s', (_name, visit) => {
  const formats = everyFormat(visit());

  test.each(Object.keys(formats).filter((format) => !isRecord(format)))(
    '%s holds no NaN, undefined, null, [object, long decimals',
    (format) => {
      const text = (formats[format] ?? '').replace(/<style>[\s\S]*?<\/style>/, '').replace(/doi:?[^\s<]*|https:[^\s"<]*/g, '');
      expect(text).not.toMatch(/\bNaN\b|\bundefined\b|\bnull\b|\[object|\bInfinity\b/);
      expect(text).not.toMatch(/\d\.\d{5,}/);
      // titles of papers are left as they are
      const [own = ''] = text.split(/<section id="sources">|^## Sources|^SOURCES/m);
      expect(own).not.toMatch(/\bdiagnos(?!tic)|\b(un)?safe\b/i);
    },
  );

  test.each(['json', 'fhir'])('%s holds no long decimals and no NaN in words', (format) => {
    expect(formats[format]).not.toMatch(/: -?\d+\.\d{7,}|"NaN"|"undefined"|\[object/);
  });
});
