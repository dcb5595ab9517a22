// A run's curves against its limits. Lagging solid with down triangles, leading dashed with up triangles.
import type { JSX } from 'preact'
import type { ForecastChart } from '../../core/views/forecast_chart.ts'
import type { RunChart as Chart, Point } from '../../core/views/run_chart_view.ts'
import './run_chart.css'

const BOX = { w: 358, h: 232, left: 34, right: 6, top: 12, bottom: 26 } as const

export type ChartWords = {
  readonly min: string
  readonly max: string
  readonly metal: string
  readonly neighbour: string
}

type ChartProps = {
  chart: Chart
  /** Laid under the readings. */
  forecast?: ForecastChart | undefined
  now_ms: number
  until_ms: number
  /** Readings are integers times this. */
  scale: number
  words: ChartWords
  timeOf: (run_ms: number) => string
  label: string
}

type Scales = {
  readonly x: (run_ms: number) => number
  readonly y: (value: number) => number
  readonly top: number
}

function scalesOf({ chart, forecast, until_ms, now_ms, scale }: ChartProps): Scales {
  const expected = forecast?.band.map(({ high }) => high) ?? []
  const all = [...[...chart.leading, ...chart.metal].map(({ value }) => value), ...expected]
  const top = Math.ceil(Math.max(chart.max, chart.metal_max ?? 0, ...all) / (50 * scale)) * 50 * scale
  const end = Math.max(60_000, until_ms, now_ms)
  const width = BOX.w - BOX.left - BOX.right
  const height = BOX.h - BOX.top - BOX.bottom
  return {
    x: (run_ms) => BOX.left + (width * run_ms) / end,
    y: (value) => BOX.top + height * (1 - Math.max(0, value) / top),
    top,
  }
}

function lineOf(points: readonly Point[], { x, y }: Scales): string {
  return points.map(({ run_ms, value }, i) => `${i ? 'L' : 'M'}${x(run_ms)} ${y(value)}`).join('')
}

export function RunChart(props: ChartProps): JSX.Element {
  const { chart, now_ms, label, words } = props
  const scales = scalesOf(props)
  const { x, y } = scales
  const limits = limitsOf(chart, words)
  const between = [...chart.leading, ...[...chart.lagging].reverse()]
  return (
    <svg viewBox={`0 0 ${BOX.w} ${BOX.h}`} role="img" aria-label={label}>
      <Grid {...props} scales={scales} />
      {props.forecast && <Expected forecast={props.forecast} scales={scales} />}
      {between.length > 2 && <path class="chart-tint" d={`${lineOf(between, scales)}z`} />}
      {limits.map(({ value, soft }) => (
        <path
          key={value}
          class={`chart-limit${soft ? ' is-soft' : ''}`}
          d={`M${BOX.left} ${y(value)}H${BOX.w - BOX.right}`}
        />
      ))}
      <path class="chart-line is-metal" d={lineOf(chart.metal, scales)} />
      <path class="chart-line is-neighbour" d={lineOf(chart.neighbour, scales)} />
      <path class="chart-line is-leading" d={lineOf(chart.leading, scales)} />
      <path class="chart-line" d={lineOf(chart.lagging, scales)} />
      <Signs points={chart.leading} shape="M-5.5 4.5h11L0 -5.5z" scales={scales} />
      <Signs points={chart.lagging} shape="M-5.5 -4.5h11L0 5.5z" scales={scales} />
      <Signs points={chart.metal} shape="M-3.5 -3.5h7v7h-7z" scales={scales} hollow />
      <Signs points={chart.neighbour} shape="M0 -5L5 0L0 5L-5 0z" scales={scales} hollow />
      {chart.soak && (
        <path
          class="chart-soak"
          d={`M${x(chart.soak[0])} ${y(0)}v7H${Math.max(x(chart.soak[1]), x(chart.soak[0]) + 2)}v-7`}
        />
      )}
      {limits.map((limit) => (
        <LimitWord key={limit.word} limit={limit} scales={scales} />
      ))}
      <path class="chart-now" d={`M${x(now_ms)} ${BOX.top - 8}V${y(0)}`} />
    </svg>
  )
}

/** A broad band with its middle; once the release is on, the planned curve alone. */
function Expected({ forecast: { band, middle }, scales }: { forecast: ForecastChart; scales: Scales }) {
  const high = band.map(({ run_ms, high }) => ({ run_ms, value: high }))
  const low = band.map(({ run_ms, low }) => ({ run_ms, value: low })).reverse()
  return (
    <g class="chart-expected">
      {band.length > 1 && <path class="chart-band" d={`${lineOf([...high, ...low], scales)}z`} />}
      <path class="chart-middle" d={lineOf(middle, scales)} />
    </g>
  )
}

function Grid({ scales, timeOf, until_ms, now_ms, scale }: ChartProps & { scales: Scales }): JSX.Element {
  const { x, y, top } = scales
  const steps = Array.from({ length: Math.floor(top / (100 * scale)) + 1 }, (_, i) => i * 100 * scale)
  const end = Math.max(60_000, until_ms, now_ms)
  return (
    <g class="chart-grid">
      {steps.map((value) => (
        <g key={value}>
          <path d={`M${BOX.left} ${y(value)}H${BOX.w - BOX.right}`} />
          <text x={BOX.left - 5} y={y(value)} dy="0.35em" text-anchor="end">
            {value / scale}
          </text>
        </g>
      ))}
      {[0, end].map((at) => (
        <text key={at} x={x(at)} y={BOX.h - 4} text-anchor={at === 0 ? 'start' : 'end'}>
          {timeOf(at)}
        </text>
      ))}
    </g>
  )
}

type LimitAt = {
  readonly value: number
  readonly word: string
  readonly at: 'left' | 'right' | 'below'
  readonly soft: boolean
}

/** The two of the bond are drawn through, those of metal and neighbour dotted; the words keep apart. */
function limitsOf(chart: Chart, words: ChartWords): readonly LimitAt[] {
  const { metal_max, neighbour_max } = chart
  return [
    { value: chart.max, word: words.max, at: 'left', soft: false },
    { value: chart.min, word: words.min, at: 'below', soft: false },
    ...(metal_max === undefined
      ? []
      : [{ value: metal_max, word: words.metal, at: 'right', soft: true } as const]),
    ...(neighbour_max === undefined
      ? []
      : [{ value: neighbour_max, word: words.neighbour, at: 'right', soft: true } as const]),
  ]
}

function LimitWord({ limit: { value, word, at }, scales }: { limit: LimitAt; scales: Scales }): JSX.Element {
  const y = scales.y(value)
  const left = at === 'left'
  return (
    <text
      class="chart-word"
      x={left ? BOX.left + 4 : BOX.w - BOX.right}
      y={at === 'below' ? y + 15 : y - 5}
      text-anchor={left ? 'start' : 'end'}
    >
      {word}
    </text>
  )
}

type SignsProps = { points: readonly Point[]; shape: string; scales: Scales; hollow?: boolean }

function Signs({ points, shape, scales, hollow = false }: SignsProps): JSX.Element {
  return (
    <g class={`chart-signs${hollow ? ' is-hollow' : ''}`}>
      {points.map(({ run_ms, value }) => (
        <path key={run_ms} d={shape} transform={`translate(${scales.x(run_ms)} ${scales.y(value)})`} />
      ))}
    </g>
  )
}
