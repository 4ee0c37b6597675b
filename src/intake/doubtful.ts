/** Numbers that YAML reads without a word although a person may have meant another: `08`, `1e3`, and lists such as `[4,2, 6,0]`. */
import { type Document, isPair, isScalar, type Scalar, visit, type YAMLSeq } from 'yaml';
import { explainNumberFormat, isPlainNumber } from './numbers.ts';
import type { Finding, Path } from './problems.ts';

/** Keys from the top down to `node`, out of what `visit` passed on the way. */
function pathOf(ancestors: readonly unknown[], key: number | 'key' | 'value' | null): Path {
  const path: (string | number)[] = [];
  for (const ancestor of ancestors) if (isPair(ancestor) && isScalar(ancestor.key)) path.push(String(ancestor.key.value));
  return typeof key === 'number' ? [...path, key] : path;
}

/** `client.ref` may look like a number (007); everything else that does must be one that can be read in one way only. */
export function doubtfulNumbers(document: Document): Finding[] {
  const findings: Finding[] = [];
  visit(document, {
    Scalar(key, node: Scalar, ancestors) {
      if (key === 'key' || typeof node.value !== 'number' || node.source === undefined || isPlainNumber(node.source)) return;
      const path = pathOf(ancestors, key);
      if (path.join('.') !== 'client.ref') findings.push({ ...explainNumberFormat(node.source, node.value), path, at: 'value' });
    },
  });
  return findings;
}

/** Whether each comma of a list in brackets is followed by a blank, where both neighbours are whole numbers; null for any other list. */
function commasOf(list: YAMLSeq, text: string): boolean[] | null {
  const blanks: boolean[] = [];
  for (const [index, item] of list.items.entries()) {
    if (!isScalar(item) || !item.range || !/^\d+$/.test(item.source ?? '')) return null;
    const next = list.items[index + 1];
    if (next === undefined) continue;
    if (!isScalar(next) || !next.range) return null;
    blanks.push(text.slice(item.range[1], next.range[0]) !== ',');
  }
  return blanks;
}

/** `[4,2, 6,0]` has commas of two kinds and is refused; `[12,8]` may be two trials or one number, and is noted. */
export function doubtfulLists(document: Document, text: string): Finding[] {
  const findings: Finding[] = [];
  visit(document, {
    Seq(key, list, ancestors) {
      const blanks = list.flow === true ? commasOf(list, text) : null;
      if (blanks === null || !blanks.includes(false)) return;
      const place = { path: pathOf(ancestors, key), at: 'value' as const };
      const mixed = blanks.includes(true);
      if (mixed)
        findings.push({
          ...place,
          code: 'decimal_comma',
          message: 'some commas of this list look like decimal commas',
          hint: 'write each number with a point, as in [4.2, 6.0]',
        });
      else if (list.items.length === 2)
        findings.push({
          ...place,
          code: 'doubtful',
          message: 'two whole numbers with a bare comma between: read as two trials',
          hint: 'write a point where one number with decimals was meant',
        });
    },
  });
  return findings;
}
