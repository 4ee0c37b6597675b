/** CSL-JSON -> BibTeX through citation-js. Loaded only by `norms cite`. */
import { plugins } from '@citation-js/core';
import '@citation-js/plugin-bibtex';
import { type CslItem, ET_AL } from './csl.ts';

/** The ids of the collection are the labels; letters outside ASCII are written as TeX commands. */
export function bibtexOf(items: readonly CslItem[]): string {
  const { format } = plugins.config.get('@bibtex');
  format.useIdAsLabel = true;
  format.checkLabel = false;
  const text = plugins.output.format('bibtex', items);
  // BibTeX has a word of its own for "and others"; in braces it would be a person of that name.
  return `${text.replaceAll(` and {${ET_AL}}`, ' and others').trim()}\n`;
}
