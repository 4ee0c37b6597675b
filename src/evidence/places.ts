/**
 * Where every object of the parsed norms files stands, so that a check across files can point to the line of the row, rule
 * or citation that is at fault. Objects are known by identity: they are registered as they come out of the parser.
 */
import type { Document, LineCounter } from 'yaml';
import { offsetAt } from './positions.ts';

export interface Position {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

type Path = readonly PropertyKey[];

interface Source {
  readonly file: string;
  readonly document: Document;
  readonly lineCounter: LineCounter;
}

interface Place {
  readonly source: Source;
  readonly path: Path;
}

export interface Places {
  /** Remembers `value` and every object inside it as read from this document. */
  readonly register: (value: unknown, source: Source) => void;
  /** Start of `key` inside `value` (or of `value` itself); null where the value was not read from a registered file. */
  readonly at: (value: object, key?: PropertyKey) => Position | null;
}

export function newPlaces(): Places {
  const known = new Map<object, Place>();
  const register = (value: unknown, source: Source, path: Path): void => {
    if (value === null || typeof value !== 'object') return;
    known.set(value, { source, path });
    for (const [key, inner] of Object.entries(value))
      register(inner, source, [...path, Array.isArray(value) ? Number(key) : key]);
  };
  return {
    register: (value, source) => register(value, source, []),
    at: (value, key) => {
      const place = known.get(value);
      if (place === undefined) return null;
      const { document, lineCounter, file } = place.source;
      const { line, col } = lineCounter.linePos(offsetAt(document, key === undefined ? place.path : [...place.path, key]));
      return { file, line, column: col };
    },
  };
}
