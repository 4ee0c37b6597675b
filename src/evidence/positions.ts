/** Where in a YAML text a zod issue lies: the recipe is to walk up from the issue's path to the nearest node that exists. */
import { type Document, isMap, isNode, isScalar, type LineCounter } from 'yaml';
import type { z } from 'zod';
import { issueInWords } from './issue-words.ts';

export interface Located {
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

type Path = readonly PropertyKey[];

/** Start of the value at `path`, or of the nearest value around it that exists. */
export function offsetAt(document: Document, path: Path): number {
  for (let length = path.length; length > 0; length -= 1) {
    const node = document.getIn(path.slice(0, length), true);
    if (isNode(node) && node.range) return node.range[0];
  }
  return isNode(document.contents) && document.contents.range ? document.contents.range[0] : 0;
}

/** Start of the key itself, for "unknown key" issues. */
function keyStart(document: Document, path: Path, key: string): number {
  const parent = path.length === 0 ? document.contents : document.getIn(path, true);
  if (isMap(parent))
    for (const pair of parent.items) if (isScalar(pair.key) && pair.key.value === key && pair.key.range) return pair.key.range[0];
  return offsetAt(document, path);
}

/** The deepest issue inside a union says most: the branch with the fewest issues is the one that was meant. */
function innermost(issue: z.core.$ZodIssue, prefix: Path = []): { issue: z.core.$ZodIssue; path: Path } {
  const path = [...prefix, ...issue.path];
  if (issue.code !== 'invalid_union' || issue.errors.length === 0) return { issue, path };
  const branches = [...issue.errors].filter((branch) => branch.length > 0);
  const depth = (branch: z.core.$ZodIssue[]): number => Math.max(...branch.map((each) => each.path.length));
  branches.sort((a, b) => depth(b) - depth(a) || a.length - b.length);
  const first = branches[0]?.[0];
  return first === undefined ? { issue, path } : innermost(first, path);
}

/** What stands at the path: nothing, an empty value (`key:`), or something. */
function foundAt(document: Document, path: Path): 'missing' | 'empty' | 'value' {
  if (path.length === 0) return document.contents === null ? 'empty' : 'value';
  if (!document.hasIn(path)) return 'missing';
  return document.getIn(path) === null ? 'empty' : 'value';
}

/** Line, column (both from 1) and message of one issue. */
export function locateIssue(document: Document, lineCounter: LineCounter, outer: z.core.$ZodIssue): Located {
  const { issue, path } = innermost(outer);
  const unknownKey = issue.code === 'unrecognized_keys' ? issue.keys[0] : undefined;
  const found = foundAt(document, path);
  // An empty value has no text of its own; the key it belongs to is what people look for.
  const key = path.at(-1);
  const offset =
    unknownKey !== undefined
      ? keyStart(document, path, unknownKey)
      : found === 'empty' && typeof key === 'string'
        ? keyStart(document, path.slice(0, -1), key)
        : offsetAt(document, path);
  const position = lineCounter.linePos(offset);
  const where = path.length === 0 ? '' : `${path.map(String).join('.')}: `;
  return { line: position.line, column: position.col, message: `${where}${issueInWords(issue, found)}` };
}
