export interface Frozen {
  readonly visit: unknown;
  /** First 12 characters of the SHA-256 of what the second implementation makes of it. */
  readonly hash: string;
}
export function frozenSample(): Frozen[];
/** What the second implementation makes of a visit, and its hash. */
export function recomputed(visit: unknown): { readonly view: unknown; readonly hash: string };
