/** The text of a session file -> Session and every problem with its place. The public face of this room. */

import type { Session } from '../session.ts';
import { buildSession, type Catalogue } from './build.ts';
import { type Fault, readDocument } from './document.ts';
import type { Span } from './positions.ts';
import { MOST_PROBLEMS, type Problem, severityOf } from './problems.ts';

/** A visit takes a page; a file of a megabyte is something else. In UTF-16 units. */
const LONGEST_TEXT = 1_000_000;

export interface ParseOptions {
  /** As it shall stand in front of every problem. */
  readonly file: string;
  readonly catalogue: Catalogue;
  /** ISO date of today; visits after it are refused. */
  readonly today: string;
}

export interface ParsedSession {
  /** null where any problem is an error. */
  readonly session: Session | null;
  /** In the order of the file; warnings are kept in `session.notes` too. */
  readonly problems: readonly Problem[];
}

type Place = (span: Span) => Pick<Problem, 'line' | 'column' | 'endColumn'>;

function placed(fault: Fault, path: string, file: string, place: Place): Problem {
  const { code, span, message, hint } = fault;
  return { code, severity: severityOf(code), file, ...place(span), path, message, hint };
}

function refused(fault: Omit<Fault, 'span'>, file: string): ParsedSession {
  return {
    session: null,
    problems: [placed({ ...fault, span: { start: 0, end: 0 } }, '', file, () => ({ line: 1, column: 1 }))],
  };
}

/** Reads a session. Pure and total: any text gives a result, never an exception. */
export function parseSession(input: string, { file, catalogue, today }: ParseOptions): ParsedSession {
  if (input.length > LONGEST_TEXT)
    return refused(
      {
        code: 'too_large',
        message: `the file is longer than ${LONGEST_TEXT} characters`,
        hint: 'write one file a visit; cohorts go into a CSV file',
      },
      file,
    );
  const text = input.replace(/^\uFEFF/, '');
  const { tree, faults, findings: doubtful, spanOf, lineCounter } = readDocument(text);
  const place: Place = ({ start, end }) => {
    const from = lineCounter.lineStarts.length === 0 ? { line: 1, col: 1 } : lineCounter.linePos(start);
    const to = end > start ? lineCounter.linePos(end) : undefined;
    const column = Math.max(from.col, 1);
    return { line: Math.max(from.line, 1), column, ...(to !== undefined && to.line === from.line ? { endColumn: to.col } : {}) };
  };
  if (faults.length === 0 && tree?.value == null)
    return refused(
      { code: 'empty_file', message: 'the file holds no session', hint: 'write format: 1 and what was recorded' },
      file,
    );
  const built = tree === null ? { session: null, findings: [] } : buildSession(tree.value, { catalogue, today }, doubtful);
  const problems = [
    ...faults.slice(0, MOST_PROBLEMS).map((fault) => placed(fault, '', file, place)),
    ...built.findings
      .slice(0, MOST_PROBLEMS)
      .map((finding) => placed({ ...finding, span: spanOf(finding.path, finding.at) }, finding.path.join('.'), file, place)),
  ];
  problems.sort((a, b) => a.line - b.line || a.column - b.column);
  return { session: faults.length === 0 ? built.session : null, problems: problems.slice(0, MOST_PROBLEMS) };
}
