/** Tests, risk and plan of a visit file given as an object. */
export function recompute(visit: unknown): unknown;
