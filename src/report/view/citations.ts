/** Numbers for sources in the order in which a report first names them, with the status mark beside each mention. */
import type { Assessment, Based } from '../../assessment.ts';
import { shortStatusWords, statusWords } from './words.ts';

export interface SourceView {
  readonly number: number;
  readonly id: string;
  readonly citation: string;
  readonly doi: string | null;
  readonly location: string | null;
  /** null for full text. */
  readonly status: string | null;
}

export interface Citations {
  /** "[3]", "[3, read in the abstract]", "[common practice]", "[this program's own rule]"; empty where there is no basis. */
  readonly mark: (based: { readonly source: string | null; readonly basis: Based['basis'] }) => string;
  /** Every source named so far, by number. */
  readonly list: () => readonly SourceView[];
  /** How many sources of the result no line has named so far. */
  readonly unnamed: () => number;
}

/** `short` marks say "abstract" where the long ones say "read in the abstract". */
export function numberedCitations(sources: Assessment['sources'], { short = false } = {}): Citations {
  const wordsOf = short ? shortStatusWords : statusWords;
  const numbers = new Map<string, number>();
  const numberOf = (id: string): number => {
    const known = numbers.get(id);
    if (known !== undefined) return known;
    numbers.set(id, numbers.size + 1);
    return numbers.size;
  };
  const entry = (id: string): SourceView => {
    const cited = sources[id];
    const number = numberOf(id);
    if (cited === undefined)
      return { number, id, citation: 'not in the list of sources', doi: null, location: null, status: null };
    return { number, id, citation: cited.citation, doi: cited.doi, location: cited.location, status: statusWords(cited.status) };
  };
  return {
    mark: ({ source, basis }) => {
      const words = [
        ...(source === null ? [] : [String(numberOf(source))]),
        ...(wordsOf(basis) === null ? [] : [wordsOf(basis)]),
      ];
      return words.length === 0 ? '' : `[${words.join(', ')}]`;
    },
    list: () => [...numbers.keys()].map(entry),
    unnamed: () => Object.keys(sources).filter((id) => !numbers.has(id)).length,
  };
}

/** A statement with its mark behind it. */
export const withMark = (text: string, mark: string): string => (mark === '' ? text : `${text} ${mark}`);
