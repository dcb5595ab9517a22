/**
 * Drying of a laminate before hot work, from the time and the two ends of its temperature that were recorded.
 *
 * All of the time counts at the coldest reading: if that lies under the band nobody knows for how long, so
 * nothing counts. No moisture content is claimed. Model "drying-1".
 */
import { exact, isOver, left, numberOf, reached } from './figures.ts'
import { type Question, quantity } from './question.ts'
import { type Answer, type Line, line, Refusal } from './shapes.ts'

export function laminateDrying(asked: Question): Answer {
  const [time, coldest, hottest] = [
    quantity(asked, 'time'),
    quantity(asked, 'coldest'),
    quantity(asked, 'hottest'),
  ]
  const [first, last, least] = [quantity(asked, 'from'), quantity(asked, 'to'), quantity(asked, 'least')]
  if (time.value <= 0) throw new Refusal('time', 'not_above_zero')
  if (isOver(first, last)) throw new Refusal('from', 'band_turned')
  if (isOver(coldest, hottest)) throw new Refusal('hottest', 'under_coldest')
  const isIn = !isOver(first, coldest) && !isOver(coldest, last)
  const inBand = exact('in_band', isIn ? reached(numberOf(time)) : 0, 'min')
  const short = exact('still_to_dry', left(numberOf(least) - inBand.value), 'min')
  const limits = [
    exact('from', first.value, 'C', first.decimals),
    exact('to', last.value, 'C', last.decimals),
  ]
  const lines: Line[] = []
  if (isOver(first, coldest)) {
    lines.push(
      line('drying_cold', 'stop', [], [exact('coldest', coldest.value, 'C', coldest.decimals), ...limits]),
    )
  }
  if (isOver(hottest, last)) {
    lines.push(
      line('drying_hot', 'stop', [], [exact('hottest', hottest.value, 'C', hottest.decimals), ...limits]),
    )
  }
  if (short.value > 0) lines.push(line('drying_short', 'stop', [], [short]))
  return {
    model: 'drying-1',
    values: [inBand, short],
    verdict: lines.length > 0 ? 'outside' : 'inside',
    lines: [...lines, line('no_moisture_told')],
    sources: ['drying', 'method_limits'],
  }
}
