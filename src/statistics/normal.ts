/**
 * The standard normal distribution. Our own forty lines because the one dependency that has it to full precision would
 * cost more start-up time than the whole scoring; both functions are checked to 1e-9 against an independent library.
 */

const horner = (coefficients: readonly number[], x: number): number => coefficients.reduce((sum, each) => sum * x + each, 0);

// Hart's rational approximation (Computer Approximations, 1968, function 5666), relative error below 1e-14.
const CDF_NUMERATOR = [
  3.52624965998911e-2, 0.700383064443688, 6.37396220353165, 33.912866078383, 112.079291497871, 221.213596169931, 220.206867912376,
];
const CDF_DENOMINATOR = [
  8.83883476483184e-2, 1.75566716318264, 16.064177579207, 86.7807322029461, 296.564248779674, 637.333633378831, 793.826512519948,
  440.413735824752,
];

/** P(Z <= z), for any real z. */
export function normalCdf(z: number): number {
  const distance = Math.abs(z);
  const tail = distance > 37 ? 0 : upperTail(distance);
  return z > 0 ? 1 - tail : tail;
}

// Beyond this the continued fraction is the better of the two; forty terms of it settle the last digit.
const TAIL_FROM = 5;
const TAIL_TERMS = 40;

/** P(Z > x) for x >= 0: Hart's approximation near the centre, Laplace's continued fraction in the tail. */
function upperTail(x: number): number {
  const density = Math.exp((-x * x) / 2);
  if (x < TAIL_FROM) return (density * horner(CDF_NUMERATOR, x)) / horner(CDF_DENOMINATOR, x);
  let fraction = x;
  for (let term = TAIL_TERMS; term > 0; term -= 1) fraction = x + term / fraction;
  return density / fraction / Math.sqrt(2 * Math.PI);
}

// Acklam's approximation (relative error 1.2e-9), then one Halley step with the CDF above.
const CENTRE_NUMERATOR = [
  -3.969683028665376e1, 2.209460984245205e2, -2.759285104469687e2, 1.38357751867269e2, -3.066479806614716e1, 2.506628277459239,
];
const CENTRE_DENOMINATOR = [
  -5.447609879822406e1, 1.615858368580409e2, -1.556989798598866e2, 6.680131188771972e1, -1.328068155288572e1, 1,
];
const TAIL_NUMERATOR = [
  -7.784894002430293e-3, -3.223964580411365e-1, -2.400758277161838, -2.549732539343734, 4.374664141464968, 2.938163982698783,
];
const TAIL_DENOMINATOR = [7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416, 1];
const TAIL_BELOW = 0.02425;

function roughQuantile(p: number): number {
  if (p < TAIL_BELOW) {
    const q = Math.sqrt(-2 * Math.log(p));
    return horner(TAIL_NUMERATOR, q) / horner(TAIL_DENOMINATOR, q);
  }
  const q = p - 0.5;
  return (q * horner(CENTRE_NUMERATOR, q * q)) / horner(CENTRE_DENOMINATOR, q * q);
}

/** z with P(Z <= z) = p, for 0 < p < 1; -Infinity at 0, Infinity at 1, NaN outside. */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return Number.NaN;
  if (p === 0 || p === 1) return p === 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  if (p > 0.5) return -normalQuantile(1 - p);
  const rough = roughQuantile(p);
  const error = (normalCdf(rough) - p) * Math.sqrt(2 * Math.PI) * Math.exp((rough * rough) / 2);
  return rough - error / (1 + (rough * error) / 2);
}
