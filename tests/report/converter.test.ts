/** Markdown through a general converter, as the README shows it; only where that program is installed. */
import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { everyFormat } from './formats.ts';
import { example, HOSTILE, hostileVisit, peopleNamed } from './visits.ts';

const present = spawnSync('pandoc', ['--version']).status === 0;
const converted = (markdown: string, to: string): string => {
  const result = spawnSync('pandoc', ['-f', 'commonmark_x', '-t', to], { input: markdown, encoding: 'utf8' });
  expect(result.stderr).toBe('');
  expect(result.status).toBe(0);
  return result.stdout;
};

describe.skipIf(!present)('pandoc', () => {
  const formats = everyFormat(example('chair-86'));
  test.each(['markdown', 'letter, markdown'])('%s: headings, tables and words arrive', (format) => {
    const html = converted(formats[format] ?? '', 'html');
    expect(html).toContain('<table');
    expect(html).toContain('World Falls Guidelines 2022');
    expect(html).not.toContain('\\');
  });
  test.each(HOSTILE.map((text) => [text.slice(0, 30), text]))('hostile text stays text: %s', (_name, text) => {
    const hostile = everyFormat(hostileVisit(text), peopleNamed(text));
    for (const format of ['markdown', 'letter, markdown']) {
      const html = converted(hostile[format] ?? '', 'html');
      expect(html).not.toMatch(/<script|<img|<a href="javascript|<style|<del|<span class="math/i);
    }
  });
});
