/** What every report that leaves the screen says of itself. */

export const PURPOSE =
  'For registered health professionals who assess balance and falls in older adults. It sets typed results beside published tables and guideline rules; it is not for urgent decisions and does not replace judgement: levels and next steps are options to accept, change or leave.';

export const HOW_TO_READ =
  'Percentile: of 100 people of the group named, how many do worse; higher is better. z: distance from the average in standard deviations; positive is better. Near a mark: the measurement error reaches across it. In brackets: the source and how it was read.';

/** Above the starting levels. */
export const PLAN_LEAD =
  "Options for the professional to tick, change or leave. Which test result leads to which level is no published rule: it is this program's own, written to be reviewed and edited.";

/** How a value is to be obtained. */
export const howToMeasure = (test: string): string => `footing protocol ${test}`;
