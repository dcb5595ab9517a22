/** The figures of a heat plan, each with its band, its limit, and the inputs that it rests on. */
import type { Json } from '../canonical.ts'
import { type Minutes, type PlanAnswer, wholeWindow } from './office_heat_answer.ts'
import { at } from './office_heat_document.ts'

export type FigureId =
  | 'workable'
  | 'soak'
  | 'release'
  | 'window'
  | 'bond_peak'
  | 'metal_peak'
  | 'ramp'
  | 'cooling'
  | 'touch'
  | 'current'
  | 'energy'
export type Amount = { readonly value: Minutes | number; readonly unit: string; readonly decimals: number }
export type Figure = {
  readonly id: FigureId
  readonly from: Amount
  /** The other end of what runs from one to another. */
  readonly to?: Amount
  readonly band?: readonly [Amount, Amount]
  /** Of the other end, where both ends have one. */
  readonly toBand?: readonly [Amount, Amount]
  readonly limit?: Amount
  readonly over: boolean
  readonly inputs: readonly Input[]
}
/** One figure of the zone's document: whose it is, by the document's own word, and what it says. */
export type Input = { readonly of: string; readonly key: string; readonly said: Json }

type Ends = readonly [low: Minutes, high: Minutes]
/** Both ends of a band as amounts; nothing where it is not known. */
function bandOf(ends: Ends | undefined, amountOf: (end: Minutes) => Amount): Pick<Figure, 'band'> {
  return ends ? { band: [amountOf(ends[0]), amountOf(ends[1])] } : {}
}

const minutes = (value: Minutes): Amount => ({ value, unit: 'min', decimals: 0 })
const degrees = (value: number): Amount => ({ value, unit: 'C', decimals: 0 })
const rate = (value: Minutes): Amount => ({ value, unit: 'K/min', decimals: 1 })

export function figuresOf(answer: PlanAnswer, document: Json): readonly Figure[] {
  return [
    ...timesOf(answer, document),
    ...peaksOf(answer, document),
    ...ratesOf(answer, document),
    ...lastOf(answer, document),
  ]
}

function timesOf(answer: PlanAnswer, document: Json): readonly Figure[] {
  const [early, late] = answer.workable_band_min
  const window = wholeWindow(answer)
  const last = Math.max(...answer.release.map((act) => act.at_min), Number.NEGATIVE_INFINITY)
  const hot = inputsOf(document, ['ambient', 'pads', 'layers', 'losses'])
  const closes = answer.bands?.window_until_min
  const wedging: Figure = {
    id: 'window',
    from: minutes(window?.[0] ?? 'never'),
    ...(window && Number.isFinite(window[1]) ? { to: minutes(window[1]) } : {}),
    ...bandOf(answer.bands?.window_from_min, minutes),
    ...(closes ? { toBand: [minutes(closes[0]), minutes(closes[1])] as const } : {}),
    over: window === undefined,
    inputs: [...inputsOf(document, ['bondline']), ...hot],
  }
  return [
    {
      id: 'workable',
      from: minutes(answer.workable_min),
      band: [minutes(early), minutes(late)],
      over: answer.workable_min === 'never',
      inputs: [...inputsOf(document, ['bondline']), ...hot],
    },
    { id: 'soak', from: minutes(answer.soak_min), over: false, inputs: inputsOf(document, ['bondline']) },
    {
      id: 'release',
      from: minutes(answer.heat_until_min),
      ...(Number.isFinite(last) ? { to: minutes(last) } : {}),
      ...bandOf(answer.bands?.heat_until_min, minutes),
      over: answer.heat_until_min === 'never',
      inputs: [...inputsOf(document, ['bondline', 'limits']), ...hot],
    },
    ...(answer.purpose === 'removal' ? [wedging] : []),
  ]
}

function peaksOf(answer: PlanAnswer, document: Json): readonly Figure[] {
  const metal = answer.layers.filter((one) => roleOf(document, one.layer) === 'metal')
  const hottest = metal.reduce((best, one) => (one.peak_C > best.peak_C ? one : best), metal[0] ?? NOTHING)
  const bond = answer.layers.find((one) => one.layer === at(document, ['bondline', 'layer'])) ?? NOTHING
  const maximum = at(document, ['bondline', 'maximum_C'])
  const inputs = inputsOf(document, ['ambient', 'pads', 'layers', 'losses', 'bands'])
  const peak = (
    id: FigureId,
    peak_C: number,
    [low, high]: readonly [number, number],
    limit_C: number | undefined,
  ): Figure => ({
    id,
    from: degrees(peak_C),
    band: [degrees(low), degrees(high)],
    ...(limit_C === undefined ? {} : { limit: degrees(limit_C) }),
    over: limit_C !== undefined && peak_C > limit_C,
    inputs,
  })
  return [
    peak(
      'bond_peak',
      bond.peak_C,
      answer.bondline_peak_band_C,
      typeof maximum === 'number' ? maximum : undefined,
    ),
    peak('metal_peak', hottest.peak_C, answer.metal_peak_band_C, hottest.limit_C),
  ]
}

const NOTHING: { readonly peak_C: number; readonly limit_C?: number } = { peak_C: Number.NaN }

function roleOf(document: Json, layer: string): Json | undefined {
  const layers = at(document, ['layers'])
  const own = Array.isArray(layers)
    ? (layers as readonly Json[]).find((one) => at(one, ['id']) === layer)
    : undefined
  // The far wall of a profile is metal too, and no layer of the stack.
  return own === undefined ? at(document, ['profile', 'wall', 'role']) : at(own, ['role'])
}

function ratesOf(answer: PlanAnswer, document: Json): readonly Figure[] {
  const inputs = inputsOf(document, ['limits', 'pads', 'layers', 'losses'])
  const one = (id: FigureId, found: number, limit: Json | undefined, ends: Ends | undefined): Figure => ({
    id,
    from: rate(found),
    ...bandOf(ends, rate),
    ...(typeof limit === 'number' ? { limit: rate(limit) } : {}),
    over: typeof limit === 'number' && found > limit,
    inputs,
  })
  return [
    one('ramp', answer.ramp_K_min, at(document, ['limits', 'ramp_K_min']), answer.bands?.ramp_K_min),
    one(
      'cooling',
      answer.cooling_K_min,
      at(document, ['limits', 'cooling_K_min']),
      answer.bands?.cooling_K_min,
    ),
  ]
}

function lastOf({ touch, electric, bands }: PlanAnswer, document: Json): readonly Figure[] {
  const [face] = touch.faces
  const touchBand = bands?.touch.find(
    (one) => one.layer === face?.layer && one.contact === face.contact,
  )?.from_min
  const inputs = inputsOf(document, ['pads', 'supply'])
  return [
    ...(face
      ? [
          {
            id: 'touch',
            from: minutes(face.from_min),
            ...bandOf(touchBand, minutes),
            over: false,
            inputs: inputsOf(document, ['layers', 'losses']),
          } as const,
        ]
      : []),
    ...(electric.current_A === undefined
      ? []
      : [
          {
            id: 'current',
            from: { value: electric.current_A, unit: 'A', decimals: 1 },
            ...(electric.circuit_A === undefined
              ? {}
              : { limit: { value: electric.circuit_A, unit: 'A', decimals: 0 } }),
            over: electric.circuit_A !== undefined && electric.current_A > electric.circuit_A,
            inputs,
          } as const,
        ]),
    { id: 'energy', from: { value: electric.energy_kWh, unit: 'kWh', decimals: 2 }, over: false, inputs },
  ]
}

type InputGroup = 'ambient' | 'pads' | 'layers' | 'losses' | 'bondline' | 'limits' | 'supply' | 'bands'
const UNTOLD: ReadonlySet<string> = new Set([
  'id',
  'name',
  'role',
  'covers_mm',
  'box_mm',
  'layer',
  'count_above_C',
])

/** The document's own figures in these groups, so that nothing is told twice or otherwise. */
export function inputsOf(document: Json, groups: readonly InputGroup[]): readonly Input[] {
  return groups.flatMap((group) => {
    if (group === 'ambient') return membersOf('', { ambient_C: at(document, ['ambient_C']) ?? '' })
    const found = at(document, [group])
    if (found === undefined) return []
    if (Array.isArray(found)) return (found as readonly Json[]).flatMap((one) => membersOf(nameOf(one), one))
    if (group === 'losses') return lossesOf(found)
    return membersOf('', found)
  })
}

const nameOf = (one: Json): string => String(at(one, ['name']) ?? at(one, ['id']) ?? '')

const lossesOf = (found: Json): readonly Input[] =>
  (['heated_face', 'inner_face'] as const).flatMap((face) => membersOf(face, at(found, [face]) ?? ''))

function membersOf(of: string, found: Json): readonly Input[] {
  if (typeof found !== 'object' || Array.isArray(found)) return []
  return Object.entries(found)
    .filter(([key]) => !UNTOLD.has(key))
    .map(([key, said]) => ({ of, key, said: said as Json }))
}
