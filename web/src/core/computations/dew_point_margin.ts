/**
 * Margin of the coldest surface over the dew point, with its band, and its way since the earlier result.
 *
 * Magnus form of the WMO (WMO-No. 8, annex 4.B); below 0 C the frost point over ice counts. The band is what a
 * hygrometer off by 3 % and thermometers off by 0.5 K leave open. Models "dew-1", "margin-1".
 */
import type { ResultValue } from '../entries.ts'
import { exact, figure, isOver, MS_PER_MIN, numberOf, reached } from './figures.ts'
import type { Quantity } from './inputs.ts'
import { figureOf } from './pick_list.ts'
import { find, type Question, quantity } from './question.ts'
import { type Answer, type Line, line, Refusal } from './shapes.ts'

type Magnus = readonly [b: number, c: number]
const WATER: Magnus = [17.62, 243.12]
const ICE: Magnus = [22.46, 272.62]
const ICE_BEGINS_C = -65
const AIR_C = [-45, 60] as const
const AIR_OFF_K = 0.5
const HUMIDITY_OFF_PERCENT = 3
const SURFACE_OFF_K = 0.5
const MIN_PER_H = 60

export function dewPointMargin(asked: Question): Answer {
  const dew = dewPoint(numberOf(quantity(asked, 'air')), numberOf(quantity(asked, 'humidity')))
  const [surface, least] = [quantity(asked, 'surface'), quantity(asked, 'least')]
  const apart = numberOf(surface) - dew.counts_C
  const off = Math.hypot(dew.off_K, SURFACE_OFF_K)
  const margin = figure('margin', apart, 'K', 1)
  const low = figure('margin_low', apart - off, 'K', 1)
  const limit = exact('least', least.value, least.unit, least.decimals)
  const outside = isOver(least, margin)
  const lines: Line[] = dew.frost ? [line('frost')] : []
  if (margin.value <= 0) lines.push(line('water_now', 'stop'))
  if (outside) lines.push(line('under_least', 'stop', [], [margin, limit]))
  else if (isOver(least, low)) lines.push(line('band_reaches_least', 'note', [], [low, limit]))
  const way = trend(asked, margin, surface, least)
  return {
    model: 'margin-1',
    values: [
      figure('dew_point', dew.counts_C, 'C', 1),
      margin,
      low,
      figure('margin_high', apart + off, 'K', 1),
      ...way.values,
    ],
    verdict: outside ? 'outside' : 'inside',
    lines: [...lines, ...way.lines],
    sources: ['magnus', 'three_kelvin'],
  }
}

type Dew = { readonly counts_C: number; readonly frost: boolean; readonly off_K: number }

function dewPoint(air_C: number, humidity: number): Dew {
  if (humidity <= 0 || humidity > 100) throw new Refusal('humidity', 'humidity_range')
  if (air_C < AIR_C[0] || air_C > AIR_C[1]) throw new Refusal('air', 'air_range')
  const vapour = Math.log(humidity / 100) + (WATER[0] * air_C) / (WATER[1] + air_C)
  const overWater = inverted(WATER, vapour)
  const frost = overWater < 0
  const law = frost ? ICE : WATER
  const counts_C = frost ? inverted(ICE, vapour) : overWater
  if (counts_C < ICE_BEGINS_C) throw new Refusal('humidity', 'too_dry')
  const slope = (law[1] * law[0]) / (law[0] - vapour) ** 2
  const perAir = (slope * WATER[0] * WATER[1]) / (WATER[1] + air_C) ** 2
  const off_K = Math.hypot(perAir * AIR_OFF_K, (slope / humidity) * HUMIDITY_OFF_PERCENT)
  return { counts_C: frost ? Math.max(overWater, counts_C) : counts_C, frost, off_K }
}

function inverted([b, c]: Magnus, vapour: number): number {
  return (c * vapour) / (b - vapour)
}

type Way = { readonly values: readonly ResultValue[]; readonly lines: readonly Line[] }

/** A straight line through two margins (common practice, no source). */
function trend(asked: Question, now: ResultValue, surface: Quantity, least: Quantity): Way {
  const earlier = find(asked, 'earlier', 'earlier')
  const before = earlier && figureOf(earlier, 'margin')
  const since_ms = (surface.at_ms ?? 0) - (earlier?.at_ms ?? 0)
  if (before === undefined || since_ms < MS_PER_MIN) return { values: [], lines: [] }
  const perMin = (numberOf(now) - numberOf(before)) / (since_ms / MS_PER_MIN)
  const slope = figure('per_hour', perMin * MIN_PER_H, 'K/h', 1)
  if (slope.value >= 0) {
    return { values: [slope], lines: [line(slope.value > 0 ? 'rising' : 'steady', 'note', [], [slope])] }
  }
  const minutes = Math.max(0, (numberOf(now) - numberOf(least)) / -perMin)
  const until = exact('until_least', reached(minutes), 'min')
  return { values: [slope, until], lines: [line('falling', 'note', [], [slope, until])] }
}
