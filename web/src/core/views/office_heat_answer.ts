/** What a heat plan answers, as the server sends it: minutes, degrees C, mm; `never` for what does not come. */
export type Minutes = number | 'never'

export type SpotAnswer = {
  readonly x_mm: number
  readonly y_mm: number
  readonly T_C: number
  readonly nearest_sensor?: string
  readonly sensor_away_mm?: number
  readonly sensor_reads_more_by_K?: number
}
/** What to do with a sensor for one spot: the sentence says it all. */
export type SensorPlace = { readonly spot: 'leading' | 'lagging'; readonly sentence: string }
export type AboveAnswer = {
  readonly above_C: number
  readonly run_min: number
  readonly earlier_min: number
  readonly total_min: number
  /** What runs of neighbouring zones have put into the earlier minutes. */
  readonly earlier_of_zones?: readonly { readonly zone: string; readonly minutes: number }[]
}
export type LayerAnswer = {
  readonly layer: string
  readonly peak_C: number
  readonly peak_at_min: Minutes
  readonly peak_x_mm: number
  readonly peak_y_mm: number
  readonly above: readonly AboveAnswer[]
  readonly limit_C?: number
  readonly ageing_caution?: {
    readonly share_of_time_to_lose_minimum_strength: number
    readonly stronger_alloys_share: number
    readonly source: string
  }
}
export type NeighbourAnswer = {
  readonly id: string
  readonly kind: string
  readonly peak_C: number
  readonly hot_side_peak_C: number
  readonly limit_C: number
  readonly passes: boolean
  readonly passes_farther_by_mm: number | 'never'
}
export type ReleaseAct = {
  readonly at_min: number
  readonly pad: string
  readonly act: 'turn_down' | 'off' | 'lift'
  readonly power_share?: number
}
export type CurvesAnswer = {
  readonly t_s: readonly number[]
  readonly coldest_bondline_C: readonly number[]
  readonly hottest_bondline_C: readonly number[]
  readonly sensors: { readonly [id: string]: readonly number[] }
  readonly metal_C?: readonly number[]
  /** The coldest bondline over the band of contact and loss while the pads stay on. */
  readonly coldest_band_C?: {
    readonly t_s: readonly number[]
    readonly low: readonly number[]
    readonly high: readonly number[]
  }
}
export type Span = readonly [low: number, high: number]
type MinuteSpan = readonly [low: Minutes, high: Minutes]
/** Lowest and highest of an answer over the band of contact and loss. */
export type BandsAnswer = {
  readonly heat_until_min: MinuteSpan
  readonly ramp_K_min: Span
  readonly cooling_K_min: Span
  readonly window_from_min: MinuteSpan
  readonly window_until_min: MinuteSpan
  readonly layers: readonly { readonly layer: string; readonly peak_C: Span }[]
  readonly touch: readonly {
    readonly layer: string
    readonly contact: string
    readonly from_min: MinuteSpan
  }[]
  readonly coldest_bondline_C: {
    readonly t_s: readonly number[]
    readonly low: readonly number[]
    readonly high: readonly number[]
  }
}
export type PlanAnswer = {
  readonly model: string
  readonly first: string
  readonly zone: string
  readonly digest: string
  readonly name: string
  readonly invented: boolean
  readonly purpose: 'removal' | 'cure'
  readonly sentence: string
  readonly band: {
    readonly contact_factor: readonly [number, number]
    readonly loss_factor: readonly [number, number]
  }
  readonly feasible: boolean
  readonly troubles: readonly { readonly code: string; readonly sentence: string }[]
  readonly mended_by: string
  readonly workable_min: Minutes
  readonly workable_band_min: readonly [Minutes, Minutes]
  readonly soak_min: Minutes
  readonly heat_until_min: Minutes
  readonly bondline_peak_band_C: readonly [number, number]
  readonly metal_peak_band_C: readonly [number, number]
  readonly leading: SpotAnswer
  readonly lagging: SpotAnswer
  /** Missing in what an older program has planned. */
  readonly sensor_places?: readonly SensorPlace[]
  readonly ramp_K_min: number
  readonly cooling_K_min: number
  readonly wedging_windows: readonly {
    readonly x_mm: number
    readonly from_min: Minutes
    readonly until_min: Minutes
  }[]
  /** Of the whole joint; missing in what an older program has planned. */
  readonly wedging_whole_min?: MinuteSpan
  readonly layers: readonly LayerAnswer[]
  readonly neighbours: readonly NeighbourAnswer[]
  readonly release: readonly ReleaseAct[]
  readonly touch: {
    readonly source: string
    readonly faces: readonly {
      readonly layer: string
      readonly contact: string
      readonly threshold_C: number
      readonly from_min: Minutes
    }[]
  }
  readonly electric: {
    readonly energy_kWh: number
    readonly peak_W: number
    readonly connected_W: number
    readonly current_A?: number
    readonly circuit_A?: number
  }
  readonly curves: CurvesAnswer
  /** Missing in what an older model has planned. */
  readonly bands?: BandsAnswer
}

/** The minutes in which the whole joint can be wedged: from its last place to become soft to its first to harden. */
export function wholeWindow(answer: PlanAnswer): readonly [from: number, until: number] | undefined {
  if (answer.wedging_whole_min !== undefined) {
    const [opens, closes] = answer.wedging_whole_min
    return opens === 'never' || closes === 'never' ? undefined : [opens, closes]
  }
  const windows = answer.wedging_windows
  const from = windows.map((one) => one.from_min)
  const until = windows.map((one) => (one.until_min === 'never' ? Number.POSITIVE_INFINITY : one.until_min))
  if (windows.length === 0 || from.includes('never')) return undefined
  const [opens, closes] = [Math.max(...from.map(Number)), Math.min(...until)]
  return closes > opens ? [opens, closes] : undefined
}
