/** Where a path of keys stands in a YAML text. */
import { type Document, isMap, isNode, isScalar, isSeq } from 'yaml';
import type { Finding, Path } from './problems.ts';

/** Offsets into the text, end exclusive. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export function spanOfNode(node: unknown): Span {
  return isNode(node) && node.range ? { start: node.range[0], end: node.range[1] } : { start: 0, end: 0 };
}

function pairAt(map: unknown, key: string | number): { readonly key: unknown; readonly value: unknown } | undefined {
  if (!isMap(map)) return undefined;
  // The last of two equal keys is the one whose value counts.
  return map.items.findLast((pair) => isScalar(pair.key) && String(pair.key.value) === String(key));
}

/** Where a path stands; a missing key is placed at the key (or start) of the mapping that lacks it. */
export function locate(document: Document, path: Path, at: Finding['at']): Span {
  let node: unknown = document.contents;
  let place = isMap(node) || node === null ? { start: 0, end: 0 } : spanOfNode(node);
  for (const [depth, key] of path.entries()) {
    const last = depth === path.length - 1;
    if (isSeq(node)) {
      node = node.items[Number(key)];
      place = isNode(node) ? spanOfNode(node) : place;
      continue;
    }
    const pair = pairAt(node, key);
    if (pair === undefined) return place;
    const empty = isScalar(pair.value) && pair.value.value === null;
    node = pair.value;
    place = !isNode(node) || empty || !last || at === 'key' ? spanOfNode(pair.key) : spanOfNode(node);
  }
  return place;
}
