/**
 * YAML of norms, maps and settings -> a plain value, or what is wrong with its place. Total: any text gives a result, also one
 * that is nested beyond the stack or whose aliases would multiply into more than the memory holds.
 */
import { type Document, LineCounter, parseDocument } from 'yaml';

export interface YamlFault {
  /** In UTF-16 units from the start. */
  readonly offset: number;
  readonly message: string;
}

export interface PlainYaml {
  readonly document: Document;
  readonly lineCounter: LineCounter;
  readonly faults: readonly YamlFault[];
  /** undefined where there are faults. */
  readonly value: unknown;
}

/** The whole of norms/ is about a megabyte. In UTF-16 units. */
const LONGEST_TEXT = 4_000_000;
const TOO_DEEP = 'brackets or lines are nested too deeply';

const wordsOf = (message: string): string => {
  const first = (message.split('\n')[0] ?? '').replace(/ at line \d+, column \d+:?$/, '');
  return first.includes('call stack') ? TOO_DEEP : first;
};

const refused = (lineCounter: LineCounter, message: string): PlainYaml => ({
  document: parseDocument('', { lineCounter }),
  lineCounter,
  faults: [{ offset: 0, message }],
  value: undefined,
});

/** Keys that stand twice are a fault. */
export function plainYaml(input: string): PlainYaml {
  const lineCounter = new LineCounter();
  if (input.length > LONGEST_TEXT) return refused(lineCounter, `the file is longer than ${LONGEST_TEXT} characters`);
  let document: Document;
  try {
    document = parseDocument(input.replace(/^\uFEFF/, ''), { lineCounter, version: '1.2', uniqueKeys: true, logLevel: 'error' });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return refused(lineCounter, TOO_DEEP);
  }
  const faults = document.errors.map(({ pos, message }) => ({ offset: pos[0], message: wordsOf(message) }));
  if (faults.length > 0) return { document, lineCounter, faults, value: undefined };
  try {
    return { document, lineCounter, faults, value: document.toJS() };
  } catch (error) {
    // An alias without its anchor, or aliases of aliases that come to too many.
    if (error instanceof ReferenceError)
      return refused(lineCounter, `an alias (*name) cannot be used: ${wordsOf(error.message)}`);
    if (error instanceof RangeError) return refused(lineCounter, TOO_DEEP);
    throw error;
  }
}
