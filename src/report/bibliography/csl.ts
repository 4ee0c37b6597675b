/**
 * Sources of the collection as CSL-JSON, the format that reference managers read. The collection keeps a citation as one
 * text; it is taken apart only where it has the plain shape "Authors. Title. Journal. Year;volume(issue):pages.", else the
 * whole text stands as the title, so that nothing is guessed.
 */
import type { Source } from '../../evidence/schema/catalogue.ts';

export type CslName = { readonly family: string; readonly given: string } | { readonly literal: string };

/** The part of CSL-JSON that is used here. */
export interface CslItem {
  readonly id: string;
  readonly type: 'article-journal' | 'document';
  readonly title: string;
  readonly author?: readonly CslName[];
  readonly 'container-title'?: string;
  readonly volume?: string;
  readonly issue?: string;
  readonly page?: string;
  readonly DOI?: string;
  readonly issued?: { readonly 'date-parts': readonly (readonly [number])[] };
  readonly note?: string;
}

export const ET_AL = 'et al.';

const ARTICLE =
  /^(?<authors>[^.]+)\. (?<title>.+?[.?!]) (?<journal>[A-Z][^.:;?!]+(?:: [^.:;?!]+)?)\. (?<year>(?:19|20)\d\d)(?:;(?<volume>\w+(?: Suppl \w+)?)?(?:\((?<issue>[^)]+)\))?(?::(?<page>[\w-]+(?:[-–][\w-]+)?))?)?\.?$/u;

/** "de Souza e Silva CG": everything but the initials at the end is the family name. */
const PERSON = /^(?<family>[\p{L}'’.\- ]+) (?<given>\p{Lu}{1,4}(?:-\p{Lu})?)$/u;

/** null where one of the names is not "Family AB": then it is no list of people. */
function people(text: string): CslName[] | null {
  const names = text.split(/, /).map((name): CslName | null => {
    if (name === 'et al') return { literal: ET_AL };
    const match = PERSON.exec(name)?.groups;
    return match?.family === undefined || match.given === undefined ? null : { family: match.family, given: match.given };
  });
  return names.every((name) => name !== null) ? names : null;
}

const given = <Key extends string>(key: Key, value: string | undefined): { readonly [K in Key]?: string } =>
  value === undefined || value === '' ? {} : ({ [key]: value } as { readonly [K in Key]?: string });

/** "... 2008;37:45-50 (scoring as described in two pages).": what stands in brackets behind the pages is a remark. */
const REMARK = /^(?<plain>.+\d) \((?<remark>[^()]+)\)\.?$/;

function withoutRemark(citation: string): { readonly plain: string; readonly remark: string | undefined } {
  const parts = REMARK.exec(citation)?.groups;
  return { plain: parts?.plain ?? citation, remark: parts?.remark };
}

function asArticle(citation: string): Omit<CslItem, 'id'> | null {
  const parts = ARTICLE.exec(citation)?.groups;
  const author = parts?.authors === undefined ? null : people(parts.authors);
  if (parts?.title === undefined || parts.year === undefined || author === null) return null;
  return {
    type: 'article-journal',
    title: parts.title.replace(/\.$/, ''),
    author,
    ...given('container-title', parts.journal),
    ...given('volume', parts.volume),
    ...given('issue', parts.issue),
    ...given('page', parts.page),
    issued: { 'date-parts': [[Number(parts.year)]] },
  };
}

const asDocument = (source: Source): Omit<CslItem, 'id'> => ({
  type: 'document',
  title: source.title ?? source.citation.replace(/\.$/, ''),
  ...(source.year === undefined ? {} : { issued: { 'date-parts': [[source.year]] } }),
});

/** One source; `note` says what of the citation was not read in the paper. */
export function cslItem(id: string, source: Source): CslItem {
  const { plain, remark } = withoutRemark(source.citation);
  const article = asArticle(plain);
  const note = [article === null ? undefined : remark, source.note].filter((each) => each !== undefined).join('. ');
  return {
    id,
    ...(article ?? asDocument(source)),
    ...(source.doi === null ? {} : { DOI: source.doi }),
    ...given('note', note),
  };
}
