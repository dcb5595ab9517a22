/**
 * How much faster a cure runs at a temperature than at its reference: exp(-Q (1/T - 1/Tr)), kelvin, Q = Ea / R
 * (equivalent age of ASTM C1074; R = 8.314462618 J/(mol K)). Exact over a ramp: the integral of exp(-c/T) dT is
 * T exp(-c/T) - c E1(c/T), NIST DLMF 6.2 and 8.19. Model "arrhenius-1".
 */

const R_J_PER_MOL_K = 8.314462618
const ZERO_C_IN_K = 273.15
const SMALL_RAMP_K = 0.05
const MOST_STEPS = 300

export type RateLaw = {
  /** Equivalent minutes per minute at a constant temperature. */
  readonly rate: (temperature_C: number) => number
  /** The same over a straight ramp. */
  readonly meanRate: (start_C: number, end_C: number) => number
}

export function arrheniusOf(energy_J_per_mol: number, reference_C: number): RateLaw {
  const activation_K = energy_J_per_mol / R_J_PER_MOL_K
  const rate = (at_C: number) =>
    Math.exp(-activation_K * (1 / (at_C + ZERO_C_IN_K) - 1 / (reference_C + ZERO_C_IN_K)))
  const primitive = (at_C: number) => {
    const T = at_C + ZERO_C_IN_K
    const x = activation_K / T
    return rate(at_C) * T * (1 - x * scaledE1(x))
  }
  const meanRate = (start_C: number, end_C: number) => {
    // The closed form would subtract nearly equal numbers.
    if (Math.abs(end_C - start_C) < SMALL_RAMP_K) {
      return (rate(start_C) + 4 * rate((start_C + end_C) / 2) + rate(end_C)) / 6
    }
    return (primitive(end_C) - primitive(start_C)) / (end_C - start_C)
  }
  return { rate, meanRate }
}

/** exp(x) E1(x) for x >= 1, by the continued fraction of NIST DLMF 6.9.1 (modified Lentz). */
export function scaledE1(x: number): number {
  let b = x + 1
  let d = 1 / b
  let fraction = d
  let c = 1e300
  for (let n = 1; n < MOST_STEPS; n += 1) {
    b += 2
    d = 1 / (b - n * n * d)
    c = b - (n * n) / c
    const step = c * d
    fraction *= step
    if (Math.abs(step - 1) <= Number.EPSILON) break
  }
  return fraction
}
