/** The YAML text of a session -> a plain tree that remembers where every key and value stands; what YAML allows and we do not is refused. */
import {
  type Document,
  isAlias,
  isMap,
  isNode,
  isPair,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  parseDocument,
  type Scalar,
  visit,
  type YAMLError,
} from 'yaml';
import { diagnoseNumberFormat, isPlainNumber } from './numbers.ts';
import type { Finding, Path, ProblemCode } from './problems.ts';

/** Offsets into the text, end exclusive. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export interface Fault {
  readonly code: ProblemCode;
  readonly span: Span;
  readonly message: string;
  readonly hint: string;
}

export interface ReadDocument {
  /** null where the text is so broken that the rest would be guesswork. */
  readonly tree: { readonly value: unknown } | null;
  readonly faults: readonly Fault[];
  /** Numbers in a doubtful form; they have a place in the tree. */
  readonly findings: readonly Finding[];
  readonly spanOf: (path: Path, at: Finding['at']) => Span;
  readonly lineCounter: LineCounter;
}

interface KnownError {
  readonly code: ProblemCode;
  readonly message: string;
  readonly hint: string;
}

const KNOWN_ERRORS: Readonly<Record<string, KnownError>> = {
  DUPLICATE_KEY: { code: 'duplicate_key', message: 'this key is written twice', hint: 'keep one of the two lines' },
  MULTIPLE_DOCS: {
    code: 'two_documents',
    message: 'a second document begins here',
    hint: 'write one file a visit, without --- between',
  },
  TAB_AS_INDENT: { code: 'tab', message: 'a tab sets this line in', hint: 'write blanks instead' },
};

const SYNTAX_HINTS: Readonly<Record<string, string>> = {
  BAD_INDENT: 'set lines that belong together in by the same number of blanks',
  MISSING_CHAR: 'close every quote, bracket and brace, and put a comma between entries',
  MULTILINE_IMPLICIT_KEY: 'write a colon and a blank after each key',
  BLOCK_AS_IMPLICIT_KEY: 'write text that contains a colon in quotes',
};
const SYNTAX_HINT = 'write `key: value` with a blank after the colon, and text with : or # in quotes';

function syntaxFault(error: YAMLError): Fault {
  const span = { start: error.pos[0], end: error.pos[1] };
  const known = KNOWN_ERRORS[error.code];
  if (known !== undefined) return { ...known, span };
  const first = error.message.split('\n')[0] ?? error.message;
  return {
    code: 'yaml_syntax',
    span,
    message: `cannot be read as YAML (${first})`,
    hint: SYNTAX_HINTS[error.code] ?? SYNTAX_HINT,
  };
}

/** After these the rest of the file can still be checked. */
const READABLE_AFTER: readonly ProblemCode[] = ['duplicate_key', 'two_documents', 'tag'];

function spanOfNode(node: unknown): Span {
  return isNode(node) && node.range ? { start: node.range[0], end: node.range[1] } : { start: 0, end: 0 };
}

function anchorOf(node: Node): string | undefined {
  return isScalar(node) || isMap(node) || isSeq(node) ? node.anchor : undefined;
}

/** Everything of YAML that a session file has no use for and that can hide what a file says. */
function unwanted(document: Document): Fault[] {
  const faults: Fault[] = [];
  const directives = document.directives;
  if (directives?.yaml.explicit === true || Object.keys(directives?.tags ?? {}).some((handle) => handle !== '!!'))
    faults.push({
      code: 'directive',
      span: { start: 0, end: 0 },
      message: 'directives (%YAML, %TAG) are not used here',
      hint: 'leave the line out',
    });
  visit(document, (_key, node) => {
    if (isPair(node) && isScalar(node.key) && node.key.value === '<<')
      faults.push({
        code: 'merge_key',
        span: spanOfNode(node.key),
        message: 'merge keys (<<) are not used here',
        hint: 'write the entries out',
      });
    if (!isNode(node)) return;
    const span = spanOfNode(node);
    if (isAlias(node) || anchorOf(node) !== undefined)
      faults.push({
        code: 'alias',
        span,
        message: 'anchors and aliases (&name, *name) are not used here',
        hint: 'write the value out, in quotes where it begins with & or *',
      });
    else if (node.tag !== undefined)
      faults.push({
        code: 'tag',
        span,
        message: `the tag ${node.tag} is not used here`,
        hint: 'leave it out, or write the text in quotes',
      });
  });
  return faults;
}

/** Keys from the top down to `node`, out of what `visit` passed on the way. */
function pathOf(ancestors: readonly unknown[], key: number | 'key' | 'value' | null): Path {
  const path: (string | number)[] = [];
  for (const ancestor of ancestors) if (isPair(ancestor) && isScalar(ancestor.key)) path.push(String(ancestor.key.value));
  return typeof key === 'number' ? [...path, key] : path;
}

/** `client.ref` may look like a number (007); everything else that does must be one that can be read in one way only. */
function doubtfulNumbers(document: Document): Finding[] {
  const findings: Finding[] = [];
  visit(document, {
    Scalar(key, node: Scalar, ancestors) {
      if (key === 'key' || typeof node.value !== 'number' || node.source === undefined || isPlainNumber(node.source)) return;
      const path = pathOf(ancestors, key);
      if (path.join('.') !== 'client.ref') findings.push({ ...diagnoseNumberFormat(node.source, node.value), path, at: 'value' });
    },
  });
  return findings;
}

function pairAt(map: unknown, key: string | number): { readonly key: unknown; readonly value: unknown } | undefined {
  if (!isMap(map)) return undefined;
  // The last of two equal keys is the one whose value counts.
  return map.items.findLast((pair) => isScalar(pair.key) && String(pair.key.value) === String(key));
}

/** Where a path stands; a missing key is placed at the key (or start) of the mapping that lacks it. */
function locate(document: Document, path: Path, at: Finding['at']): Span {
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

/** The reference as typed, so that 007 stays 007. */
function keepReference(document: Document, value: unknown): unknown {
  const ref = document.getIn(['client', 'ref'], true);
  if (!isScalar(ref) || typeof ref.value !== 'number' || ref.source === undefined) return value;
  const tree = value as { client: Record<string, unknown> };
  return { ...tree, client: { ...tree.client, ref: ref.source } };
}

const NO_PLACE = (): Span => ({ start: 0, end: 0 });

/** Reads the text without ever throwing; nesting too deep for the reader counts as broken YAML. */
export function readDocument(text: string): ReadDocument {
  const lineCounter = new LineCounter();
  let document: Document;
  try {
    document = parseDocument(text, {
      lineCounter,
      prettyErrors: false,
      schema: 'core',
      version: '1.2',
      merge: false,
      uniqueKeys: true,
      logLevel: 'silent',
    });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const fault: Fault = {
      code: 'yaml_syntax',
      span: NO_PLACE(),
      message: 'brackets are nested too deeply',
      hint: 'write the session as `key: value` lines',
    };
    return { tree: null, faults: [fault], findings: [], spanOf: NO_PLACE, lineCounter };
  }
  const faults = document.errors.map(syntaxFault);
  if (faults.every((fault) => READABLE_AFTER.includes(fault.code))) faults.push(...unwanted(document));
  const spanOf = (path: Path, at: Finding['at']): Span => locate(document, path, at);
  if (!faults.every((fault) => READABLE_AFTER.includes(fault.code)))
    return { tree: null, faults, findings: [], spanOf, lineCounter };
  const value: unknown = document.toJS({ maxAliasCount: 0 });
  return { tree: { value: keepReference(document, value) }, faults, findings: doubtfulNumbers(document), spanOf, lineCounter };
}
