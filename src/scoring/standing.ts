/** From a percentile and its bound to a standing. Where the words change stands in `norms/defaults.yaml`. */
import type { Standing } from '../assessment.ts';
import type { StandingBands } from '../evidence/schema/numbers.ts';
import type { PercentileResult } from './knots.ts';
import { PERCENTILE_DECIMALS, roundTo } from './performance.ts';

/**
 * An exact percentile falls into its band. `at_most p` counts only where even p is still inside the band, `at_least p`
 * only where p already is; otherwise the table cannot say, which is null. Judged is the percentile as it is shown: no table is
 * exact to a hundredth, and a 25.0 called "below" could not be checked by whoever reads it. Rounding keeps the order, so a
 * better result still never stands worse.
 */
export function standingOf({ percentile: exact, bound }: PercentileResult, bands: StandingBands): Standing | null {
  const percentile = roundTo(exact, PERCENTILE_DECIMALS);
  if (bound === 'at_most') {
    if (percentile <= bands.well_below_under) return 'well_below';
    return percentile <= bands.below_under ? 'below' : null;
  }
  if (bound === 'at_least') {
    if (percentile >= bands.above_over) return 'above';
    return percentile >= bands.below_under ? 'expected' : null;
  }
  if (percentile < bands.well_below_under) return 'well_below';
  if (percentile < bands.below_under) return 'below';
  return percentile <= bands.above_over ? 'expected' : 'above';
}

/** In words why a bound gives no standing; the share is rounded to whole per cent. */
export function cannotSay({ percentile, bound }: PercentileResult): string {
  const share = Math.round(percentile);
  return bound === 'at_most'
    ? `worse than the worst published mark (${share} % of people are below it); the table cannot say how far`
    : `not among the lowest ${share} %; the table cannot say more`;
}
