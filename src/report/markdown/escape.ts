/** Text from files inside Markdown: nothing in it may become markup, here or in a converter that knows more than the standard. */

const MARKUP = /[\\`*_{}[\]<>#|~$^@&]/g;

/** What opens a list, a rule, a setext heading or a quotation at the start of a line. */
const AT_START = /^(?:[-+=]|\d+(?=[.)](?:\s|$)))/;

/** One line of plain text; a backslash before every ASCII sign that could mean something. */
export function plainMarkdown(text: string): string {
  const escaped = text.replace(/\s+/g, ' ').replace(MARKUP, '\\$&');
  return escaped.replace(AT_START, (start) => (/\d/.test(start) ? `${start}\\` : `\\${start}`));
}

export const bulletMarkdown = (text: string, depth = 0): string => `${'  '.repeat(depth)}- ${plainMarkdown(text)}`;

/** A table; cells are escaped. */
export function tableMarkdown(headers: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const line = (cells: readonly string[]): string => `| ${cells.map(plainMarkdown).join(' | ')} |`;
  return [line(headers), `|${' --- |'.repeat(headers.length)}`, ...rows.map(line)];
}
