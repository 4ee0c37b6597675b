export interface Difference {
  readonly path: string;
  readonly project: unknown;
  readonly independent: unknown;
}
/** The fields that both sides give, of an assessment or of a recomputation. */
export function view(result: unknown): unknown;
export function differences(project: unknown, independent: unknown, path?: string): Difference[];
