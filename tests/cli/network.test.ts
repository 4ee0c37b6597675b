/** No command reaches a network: every test runs with sockets forbidden, and the guard itself is tried here. */

import { lookup } from 'node:dns';
import { readdirSync, readFileSync } from 'node:fs';
import { createConnection } from 'node:net';
import { describe, expect, it } from 'vitest';
import { spawned } from '../support/run.ts';

describe('the guard of the test suite', () => {
  it('refuses sockets, names and fetch', () => {
    expect(() => createConnection(80, '192.0.2.1')).toThrow('network call');
    expect(() => lookup('example.org', () => undefined)).toThrow('network call');
    expect(() => fetch('http://192.0.2.1')).toThrow('network call');
  });
});

describe('the source', () => {
  it('names no module that reaches a network', () => {
    const root = new URL('../../src/', import.meta.url);
    const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((path) => path.endsWith('.ts'));
    const found = files.filter((path) =>
      /from '(node:)?(net|http|https|http2|tls|dns|dgram)'|\bfetch\(/.test(readFileSync(new URL(path, root), 'utf8')),
    );
    expect(found).toEqual([]);
  });
});

describe.runIf(spawned !== undefined)('the built program', () => {
  it('holds no module that reaches a network', () => {
    const dist = new URL('../dist/', `file://${spawned}`);
    const files = readdirSync(dist).filter((path) => /\.c?js$/.test(path));
    const pattern = /(?:from|require\(|import\()\s*["'](?:node:)?(?:net|http|https|http2|tls|dns|dgram)["']/;
    expect(files.filter((path) => pattern.test(readFileSync(new URL(path, dist), 'utf8')))).toEqual([]);
  });
});
