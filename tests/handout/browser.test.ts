/** The page in a real browser, on screen and on paper. Run where Chromium is installed; else left to .ci/run. */
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, join } from 'node:path';
import { type Browser, launch, type Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Paper } from '../../src/report/handout/style.ts';
import { EXAMPLES, pageOf } from './example-page.ts';

const chromium = (process.env.PATH ?? '')
  .split(delimiter)
  .map((folder) => join(folder, 'chromium'))
  .find((path) => existsSync(path));
const axePath = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

/** 16 points in the pixels of a browser: 96 an inch, 72 points an inch. */
const LARGE_PRINT_PX = (16 * 96) / 72;

describe.skipIf(chromium === undefined)('in Chromium', () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await launch({ pipe: true, executablePath: chromium ?? '', args: ['--no-sandbox', '--disable-gpu'] });
    page = await browser.newPage();
  });
  afterAll(async () => browser.close());

  test.each(EXAMPLES)('axe-core finds nothing on the page of %s', async (name) => {
    await page.setContent(pageOf(name));
    await page.addScriptTag({ path: axePath });
    const violations = await page.evaluate(
      "axe.run().then(({ violations }) => violations.map(({ id, help }) => id + ': ' + help))",
    );
    expect(violations).toEqual([]);
  });

  test.each(EXAMPLES)('every word of %s is 16 points or more, black on white', async (name) => {
    await page.setContent(pageOf(name));
    const styles = (await page.evaluate(`[...document.querySelectorAll('body *')]
      .filter((element) => [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim() !== ''))
      .map((element) => getComputedStyle(element))
      .map(({ fontSize, color }) => ({ size: parseFloat(fontSize), color }))`)) as { size: number; color: string }[];
    expect(Math.min(...styles.map(({ size }) => size))).toBeGreaterThanOrEqual(LARGE_PRINT_PX - 0.01);
    expect([...new Set(styles.map(({ color }) => color))]).toEqual(['rgb(0, 0, 0)']);
  });

  const pagesOf = async (html: string): Promise<number> => {
    await page.setContent(html);
    const pdf = await page.pdf({ preferCSSPageSize: true });
    return new TextDecoder('latin1').decode(pdf).split(/\/Type\s*\/Page\b(?!s)/).length - 1;
  };

  test.each<Paper>(['a4', 'letter'])('the page of the woman of 74 prints on two to four sheets (%s)', async (paper) => {
    const sheets = await pagesOf(pageOf('copd-74', paper));
    expect(sheets).toBeGreaterThanOrEqual(2);
    expect(sheets).toBeLessThanOrEqual(4);
  });

  test.each(EXAMPLES)('nothing of %s is wider than the paper, and no exercise is torn apart', async (name) => {
    await page.setContent(pageOf(name));
    await page.emulateMediaType('print');
    // A4 less its margins, in pixels
    await page.setViewport({ width: Math.floor((190 / 25.4) * 96), height: 1000 });
    const wide = await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth');
    expect(wide).toBeLessThanOrEqual(0);
    const tallest = await page.evaluate(
      `Math.max(...[...document.querySelectorAll('.exercise, .stop')].map((each) => each.getBoundingClientRect().height))`,
    );
    expect(Number(tallest)).toBeLessThan(((297 - 16) / 25.4) * 96);
    await page.emulateMediaType('screen');
  });
});
