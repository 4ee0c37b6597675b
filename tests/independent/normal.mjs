/** The normal distribution once more, by a power series and by halving: slow, short and nobody else's code. */

/** Share of a standard normal population below z: 1/2 + density x (z + z^3/3 + z^5/15 + ...). */
export function shareBelow(z) {
  if (z < -9) return 0;
  if (z > 9) return 1;
  let term = z;
  let sum = z;
  for (let n = 3; n < 800; n += 2) {
    term = (term * z * z) / n;
    if (sum + term === sum) break;
    sum += term;
  }
  return 0.5 + sum * (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI));
}

const known = new Map();

/** The z below which this share lies (0 < share < 1). */
export function zOfShare(share) {
  const before = known.get(share);
  if (before !== undefined) return before;
  let low = -9;
  let high = 9;
  for (let step = 0; step < 80; step += 1) {
    const middle = (low + high) / 2;
    if (shareBelow(middle) < share) low = middle;
    else high = middle;
  }
  known.set(share, (low + high) / 2);
  return (low + high) / 2;
}

/** To so many decimals, halves away from zero, free of the last binary digits. */
export function rounded(value, decimals) {
  const factor = 10 ** decimals;
  const scaled = Number((Math.abs(value) * factor).toPrecision(13));
  const whole = Math.round(scaled) / factor;
  return value < 0 && whole !== 0 ? -whole : whole;
}
