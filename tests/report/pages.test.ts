/** The pages as a browser and a validator see them: valid, accessible, nothing loaded, nothing run, one page for a letter. */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { HtmlValidate } from 'html-validate';
import puppeteer, { type Browser } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { renderHtml } from '../../src/report/html/report.ts';
import { letterHtml } from '../../src/report/letter/html.ts';
import { visitView } from '../../src/report/view/visit.ts';
import { testEvidence } from '../support/evidence.ts';
import { letterFor } from './formats.ts';
import { EMPTY, EXAMPLES, example, URGENT, visitOf } from './visits.ts';

const CHROMIUM = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(existsSync);
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const validator = new HtmlValidate({ extends: ['html-validate:recommended'] });

const VISITS = [
  ...EXAMPLES.map((name) => [name, example(name)] as const),
  ['nothing asked', visitOf(EMPTY)] as const,
  ['a red flag', visitOf(URGENT)] as const,
];
const PAGES: [string, string][] = [
  ...VISITS.flatMap(([name, visit]): [string, string][] => [
    [`report, ${name}`, renderHtml([visitView(visit, testEvidence())])],
    [`letter, ${name}`, letterHtml(letterFor(visit))],
  ]),
  [
    'two reports',
    renderHtml(
      VISITS.slice(0, 2).map(([, visit]) => visitView(visit, testEvidence())),
      { full: true },
    ),
  ],
];

describe.each(PAGES)('%s', (_name, page) => {
  test('is valid HTML', async () => {
    const report = await validator.validateString(page);
    expect(
      report.results.flatMap((result) => result.messages.map((each) => `${each.line}: ${each.ruleId} ${each.message}`)),
    ).toEqual([]);
  });
  test('loads nothing and runs nothing', () => {
    expect(page).not.toMatch(/<script|<link|<img|<iframe|@import|url\(|\son[a-z]+=/i);
    expect([...page.matchAll(/\b(?:src|href)="(?!#|https:\/\/doi\.org\/)/g)]).toEqual([]);
  });
  test('every picture has a title, a description or its numbers beside it', () => {
    for (const [svg] of page.matchAll(/<svg class="chart"[\s\S]*?<\/svg>/g)) {
      expect(svg).toMatch(/<title id="[^"]+">[^<]+/);
      expect(svg).toMatch(/<desc id="[^"]+">[^<]+/);
    }
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
  });
});

describe.skipIf(CHROMIUM === undefined)('in Chromium', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await puppeteer.launch({ executablePath: CHROMIUM ?? '', pipe: true, args: ['--no-sandbox', '--disable-gpu'] });
  }, 60_000);
  afterAll(() => browser?.close());

  const SIZES = [
    ['phone', 390, 844, 'screen'],
    ['laptop', 1280, 800, 'screen'],
    ['paper', 794, 1123, 'print'],
  ] as const;

  test.each(PAGES)(
    '%s: accessible at every size, nothing wider than the screen',
    async (_name, html) => {
      for (const [size, width, height, media] of SIZES) {
        const page = await browser.newPage();
        await page.setViewport({ width, height });
        await page.emulateMediaType(media);
        await page.setContent(html);
        const wider = await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth');
        expect(wider, size).toBe(0);
        await page.evaluate(axe);
        const faults = await page.evaluate('axe.run().then((found) => found.violations.map((each) => each.id))');
        expect(faults, size).toEqual([]);
        await page.close();
      }
    },
    60_000,
  );

  test.each(VISITS)(
    'the letter of %s is one page of A4 and of letter paper',
    async (_name, visit) => {
      for (const format of ['a4', 'letter'] as const) {
        const page = await browser.newPage();
        await page.setContent(letterHtml(letterFor(visit)));
        const pdf = Buffer.from(await page.pdf({ format })).toString('latin1');
        expect((pdf.match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length).toBe(1);
        await page.close();
      }
    },
    60_000,
  );
});
