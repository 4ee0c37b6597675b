/** The few functions of jstat, a second statistics library, that tests compare with. */
declare module 'jstat' {
  interface Statistics {
    mean(values: readonly number[]): number;
    median(values: readonly number[]): number;
    /** `true` for the sample's standard deviation (n - 1). */
    stdev(values: readonly number[], sample: boolean): number;
    /** Interval of the mean by the t distribution: confidence alpha, from the values. */
    tci(value: number, alpha: number, values: readonly number[]): [number, number];
    readonly binomial: { cdf(count: number, n: number, p: number): number };
  }
  export const jStat: Statistics;
}
