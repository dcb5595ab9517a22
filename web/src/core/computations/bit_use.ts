/**
 * Holes of each drill bit against what one may do, and how many the last one may still do. Model "bits-1".
 *
 * Every bit is taken to have done as many holes as were counted for one, the last what is left over.
 */
import { exact, numberOf } from './figures.ts'
import { type Question, quantity } from './question.ts'
import { type Answer, line, Refusal } from './shapes.ts'

export function bitUse(asked: Question): Answer {
  const [holes, perBit, limit] = [count(asked, 'holes'), count(asked, 'per_bit'), count(asked, 'limit')]
  if (perBit > holes) throw new Refusal('per_bit', 'more_than_holes')
  const used = Math.ceil(holes / perBit)
  const last = holes - (used - 1) * perBit
  const [most, allowed] = [exact('per_bit', perBit, 'pcs'), exact('limit', limit, 'pcs')]
  const still = exact('last_bit_left', Math.max(0, limit - last), 'pcs')
  const isOver = perBit > limit
  return {
    model: 'bits-1',
    values: [
      most,
      allowed,
      exact('bits_used', used, 'pcs'),
      exact('bits_needed', Math.ceil(holes / limit), 'pcs'),
      exact('last_bit', last, 'pcs'),
      still,
    ],
    verdict: isOver ? 'outside' : 'inside',
    lines: [
      ...(isOver ? [line('bit_over', 'stop', [], [most, allowed])] : []),
      line(still.value === 0 ? 'bit_change_now' : 'bit_change_after', 'note', [], [still]),
    ],
    sources: ['bits'],
  }
}

function count(asked: Question, name: string): number {
  const found = quantity(asked, name)
  if (found.value <= 0) throw new Refusal(name, 'not_above_zero')
  return Math.floor(numberOf(found))
}
