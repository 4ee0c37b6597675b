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
  visit,
  type YAMLError,
} from 'yaml';
import { doubtfulLists, doubtfulNumbers } from './doubtful.ts';
import { locate, type Span, spanOfNode } from './positions.ts';
import { type Finding, type Path, type ProblemCode, shown } from './problems.ts';

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

const TOO_DEEP: KnownError = {
  code: 'yaml_syntax',
  message: 'brackets or lines are nested too deeply',
  hint: 'write the session as `key: value` lines',
};

function syntaxFault(error: YAMLError): Fault {
  const span = { start: error.pos[0], end: error.pos[1] };
  const known = KNOWN_ERRORS[error.code];
  if (known !== undefined) return { ...known, span };
  if (error.code === 'RESOURCE_EXHAUSTION') return { ...TOO_DEEP, span };
  const first = error.message.split('\n')[0] ?? error.message;
  return {
    code: 'yaml_syntax',
    span,
    message: `cannot be read as YAML (${first})`,
    hint: SYNTAX_HINTS[error.code] ?? SYNTAX_HINT,
  };
}

/** After these the rest of the file can still be checked. */
const READABLE_AFTER: readonly ProblemCode[] = ['duplicate_key', 'two_documents'];

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

/** No session nests deeper than a handful; far deeper ones would exhaust the stack of whatever walks them. */
const DEEPEST = 50;

/** Walks with a list of its own, so that depth costs no stack. */
function isTooDeep(document: Document): boolean {
  let level: unknown[] = [document.contents];
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > DEEPEST) return true;
    level = level.flatMap((node) => {
      if (isMap(node)) return node.items.flatMap(({ key, value }) => [key, value]);
      return isSeq(node) ? node.items : [];
    });
  }
  return false;
}

/** Linear, unlike the reader's own check: a file of ten thousand lines must not take a minute. */
function duplicateKeys(document: Document): Fault[] {
  const faults: Fault[] = [];
  visit(document, {
    Map(_key, map) {
      const met = new Set<unknown>();
      for (const { key } of map.items) {
        if (!isScalar(key)) continue;
        if (met.has(key.value))
          faults.push({
            code: 'duplicate_key',
            span: spanOfNode(key),
            message: `\`${shown(key.value)}\` is written twice`,
            hint: 'keep one of the two lines',
          });
        met.add(key.value);
      }
    },
  });
  return faults;
}

/** The reference as typed, so that 007 stays 007. */
function keepReference(document: Document, value: unknown): unknown {
  const ref = document.getIn(['client', 'ref'], true);
  if (!isScalar(ref) || typeof ref.value !== 'number' || ref.source === undefined) return value;
  const tree = value as { client: Record<string, unknown> };
  return { ...tree, client: { ...tree.client, ref: ref.source } };
}

/** One slip often breaks the reading of the whole line; more than the first message about it is noise. */
function oncePerLine(faults: readonly Fault[], lineCounter: LineCounter): Fault[] {
  const lines = new Set<number>();
  return faults.filter(({ span }) => {
    const { line } = lineCounter.linePos(span.start);
    const first = !lines.has(line);
    lines.add(line);
    return first;
  });
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
      uniqueKeys: false,
      logLevel: 'error',
    });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const fault: Fault = { ...TOO_DEEP, span: NO_PLACE() };
    return { tree: null, faults: [fault], findings: [], spanOf: NO_PLACE, lineCounter };
  }
  const faults = oncePerLine(document.errors.map(syntaxFault), lineCounter);
  if (isTooDeep(document)) faults.push({ ...TOO_DEEP, span: NO_PLACE() });
  if (faults.every((fault) => READABLE_AFTER.includes(fault.code)))
    faults.push(...unwanted(document), ...duplicateKeys(document));
  const spanOf = (path: Path, at: Finding['at']): Span => locate(document, path, at);
  if (!faults.every((fault) => READABLE_AFTER.includes(fault.code)))
    return { tree: null, faults, findings: [], spanOf, lineCounter };
  const value: unknown = document.toJS({ maxAliasCount: 0 });
  return {
    tree: { value: keepReference(document, value) },
    faults,
    findings: [...doubtfulNumbers(document), ...doubtfulLists(document, text)],
    spanOf,
    lineCounter,
  };
}
