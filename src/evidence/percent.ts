/** `p12_5` -> 12.5: the keys of percentile points in norms files. */
export const percentOf = (key: string): number => Number(key.slice(1).replace('_', '.'));
