/** Every block of the page on the library is run, and prints what stands under it. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { spawned } from '../support/run.ts';

const page = readFileSync(new URL('../../examples/library.md', import.meta.url), 'utf8');
const blocks = [...page.matchAll(/## (.+)\n[\s\S]*?```js\n([\s\S]*?)```\n\n```text\n([\s\S]*?)```/g)].map(
  ([, title = '', code = '', printed = '']) => ({ title, code, printed }),
);

/** The built library where the built program is tested, else the source. */
const library = (): Promise<object> =>
  spawned === undefined ? import('../../src/index.ts') : import(new URL('../dist/index.js', `file://${spawned}`).href);

const AsyncFunction = (async () => undefined).constructor as new (
  ...parameters: string[]
) => (footing: object, out: object) => Promise<void>;

describe('examples/library.md', () => {
  it('has a printed result under every block', () => {
    expect(blocks.length).toBe(page.split('```js').length - 1);
    expect(blocks.length).toBeGreaterThanOrEqual(4);
  });

  it.each(blocks)('$title', async ({ code, printed }) => {
    const lines: string[] = [];
    const body = code.replace(/^import (\{[^}]+\}) from 'footing';$/gm, 'const $1 = footing;');
    await new AsyncFunction('footing', 'console', body)(await library(), {
      log: (...parts: unknown[]) => lines.push(parts.map(String).join(' ')),
    });
    expect(`${lines.join('\n')}\n`).toBe(printed);
  });
});
