/** Small turns of English that every report needs, in one place so that all of them read alike. */

export const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
export const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** With a full stop, unless it ends with a sign of its own; an empty text stays empty. */
export const withStop = (text: string): string => (text === '' || /[.!?]$/.test(text) ? text : `${text}.`);

/** "a", "a and b", "a, b and c". */
export const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
