/** What every report that leaves the screen says of itself. */

export const PURPOSE =
  'For registered health professionals who assess balance and falls in older adults. It sets typed results beside published tables and guideline rules; it is not for urgent decisions and does not replace judgement: levels and next steps are options to accept, change or leave.';

export const HOW_TO_READ =
  'Percentile: of 100 people of the group named, how many do worse; higher is better. z: distance from the average in standard deviations; positive is better. Near a mark: the measurement error reaches across it. In brackets: the source and how it was read.';

/** How a value is to be obtained. */
export const howToMeasure = (test: string): string => `footing protocol ${test}`;
