export const LINES: readonly (readonly string[])[];
export function digests(
  bin: string,
  options?: { readonly node?: string; readonly env?: Readonly<Record<string, string>> },
): string[];
