/**
 * Figures of answers: how they are rounded and compared, the same in both languages.
 *
 * Rounding is half away from zero, as on paper; what lies within a billionth of a step under a half counts as the
 * half. What is reached is rounded down, what is left is rounded up. A limit is compared in whole steps of the
 * figure that is shown; a value on it is good.
 */
import type { ResultValue } from '../entries.ts'

export type Scaled = { readonly value: number; readonly decimals: number }

const NOISE = 1e-9
export const MS_PER_MIN = 60_000

/** Steps in one unit. */
export function tenTo(decimals: number): number {
  return 10 ** decimals
}

/** Whole steps of 10^-decimals, half away from zero; never minus zero. */
export function rounded(number: number, decimals: number): number {
  const steps = Math.floor(Math.abs(number) * tenTo(decimals) + 0.5 + NOISE)
  return number < 0 && steps !== 0 ? -steps : steps
}

/** Whole units that are reached. */
export function reached(number: number): number {
  return Math.floor(number + NOISE)
}

/** Whole units that are still needed; never less than none. */
export function left(number: number): number {
  return Math.max(0, Math.ceil(number - NOISE))
}

export function exact(name: string, value: number, unit: string, decimals = 0): ResultValue {
  return { name, value, unit, decimals }
}

/** A figure of an answer, rounded. */
export function figure(name: string, number: number, unit: string, decimals: number): ResultValue {
  return exact(name, rounded(number, decimals), unit, decimals)
}

/** The number that a figure stands for. */
export function numberOf(scaled: Scaled): number {
  return scaled.value / tenTo(scaled.decimals)
}

/** A figure in steps of 10^-decimals, which must not be coarser than its own. */
export function stepsOf(scaled: Scaled, decimals: number): number {
  return scaled.value * tenTo(decimals - scaled.decimals)
}

export function finest(scaled: readonly Scaled[]): number {
  return Math.max(0, ...scaled.map((one) => one.decimals))
}

/** first > second, in whole steps of the finer one. */
export function isOver(first: Scaled, second: Scaled): boolean {
  const decimals = finest([first, second])
  return stepsOf(first, decimals) > stepsOf(second, decimals)
}

/** first - second, exact. */
export function difference(name: string, first: Scaled, second: Scaled, unit: string): ResultValue {
  const decimals = finest([first, second])
  return exact(name, stepsOf(first, decimals) - stepsOf(second, decimals), unit, decimals)
}
