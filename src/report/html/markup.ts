/** HTML and SVG as text: every hole of the template is escaped unless it is markup made by this template. */
export interface Markup {
  readonly markup: string;
}

const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

export const escaped = (text: string): string => text.replace(/[&<>"']/g, (character) => ESCAPES[character] ?? character);

type Hole = string | number | Markup | null | readonly (string | number | Markup | null)[];

function filled(hole: Hole): string {
  if (hole === null) return '';
  if (typeof hole === 'string') return escaped(hole);
  if (typeof hole === 'number') return String(hole);
  return 'markup' in hole ? hole.markup : hole.map(filled).join('');
}

/** `html`<p>${text}</p>``: texts are escaped, numbers printed, lists joined, null left out. */
export function html(parts: TemplateStringsArray, ...holes: readonly Hole[]): Markup {
  return { markup: parts.reduce((all, part, index) => all + filled(holes[index - 1] ?? null) + part) };
}
