/**
 * Travel between aluminium and laminate since the bond set, and what the bondline sees of it. Model "mismatch-1".
 *
 * Travel over thickness is an upper bound; elastic shear lag (Volkersen 1938; Hart-Smith, NASA CR-112235) is what a
 * stiff adhesive sees. The thinnest bondline counts, and the temperature farther from where it set.
 */
import { figure, numberOf } from './figures.ts'
import { oneOrMore, type Question, quantity } from './question.ts'
import { type Answer, line, Refusal } from './shapes.ts'

const ABOVE_ZERO = ['length', 'flange_modulus', 'laminate_modulus', 'shear_modulus']

export function thermalMismatch(asked: Question): Answer {
  const number = (name: string) => numberOf(quantity(asked, name))
  for (const name of ABOVE_ZERO) {
    if (number(name) <= 0) throw new Refusal(name, 'not_above_zero')
  }
  const set_C = number('set_at')
  const [coldest_C, hottest_C] = [number('coldest'), number('hottest')]
  const at_C = Math.abs(coldest_C - set_C) >= Math.abs(hottest_C - set_C) ? coldest_C : hottest_C
  const length_mm = number('length')
  const perK = (number('flange_expansion') - number('laminate_expansion')) * 1e-6
  const travel_mm = Math.abs(perK * (at_C - set_C) * length_mm)
  const thinnest_mm = Math.min(...thicknesses(asked, 'bondline'))
  const shear_MPa = number('shear_modulus')
  const compliance =
    1 / (number('flange_modulus') * mean(thicknesses(asked, 'flange'))) +
    1 / (number('laminate_modulus') * mean(thicknesses(asked, 'laminate')))
  const half = (Math.sqrt((shear_MPa / thinnest_mm) * compliance) * length_mm) / 2
  const bound = travel_mm / 2 / thinnest_mm
  const strain = (Math.tanh(half) / half) * bound
  return {
    model: 'mismatch-1',
    values: [
      figure('at', at_C, 'C', 1),
      figure('travel', travel_mm, 'mm', 2),
      figure('end_travel', travel_mm / 2, 'mm', 2),
      figure('upper_bound', bound * 100, '%', 0),
      figure('end_strain', strain * 100, '%', 1),
      figure('end_stress', strain * shear_MPa, 'MPa', 1),
      figure('thinnest', thinnest_mm, 'mm', 2),
    ],
    verdict: 'none',
    lines: [line('upper_bound'), line('elastic_only')],
    sources: ['shear_lag'],
  }
}

function thicknesses(asked: Question, name: string): readonly number[] {
  const read = oneOrMore(asked, name)
  if (read.length === 0 || read.some((one) => one.value <= 0)) throw new Refusal(name, 'not_above_zero')
  return read.map(numberOf)
}

function mean(all: readonly number[]): number {
  return all.reduce((sum, one) => sum + one, 0) / all.length
}
