// The plan's curves: bondline, metal and sensors against time, with limits, band, and each pad's power below.
import type { JSX } from 'preact'
import { useMemo } from 'preact/hooks'
import type { PlanAnswer } from '../../core/views/office_heat_answer.ts'
import {
  type ChartLine,
  type ChartPoint,
  type HeatChart,
  heatChart,
  type PadPower,
  valueAt_C,
} from '../../core/views/office_heat_curves.ts'
import type { Joint } from '../../core/views/office_heat_document.ts'
import { degrees, minutes } from '../words/en_heat_office.ts'
import { curves as words } from '../words/en_heat_plan.ts'
import './office_heat_curves.css'

const BOX = { w: 880, left: 60, right: 16, top: 14, high: 300, pad: 30, foot: 34 } as const
const TICK_C = 50
const TICK_MIN = 10
const EVERY_MIN = 5

type Scales = {
  readonly x: (at_min: number) => number
  readonly y: (T_C: number) => number
  readonly bottom: number
}

function scalesOf({ end_min, top_C, bottom_C }: HeatChart): Scales {
  const width = BOX.w - BOX.left - BOX.right
  return {
    x: (at_min) => BOX.left + (width * at_min) / end_min,
    y: (T_C) => BOX.top + BOX.high * (1 - (T_C - bottom_C) / (top_C - bottom_C)),
    bottom: BOX.top + BOX.high,
  }
}

const pathOf = (points: readonly ChartPoint[], { x, y }: Scales): string =>
  points.map(([t, T], number) => `${number === 0 ? 'M' : 'L'}${x(t).toFixed(1)} ${y(T).toFixed(1)}`).join('')

type CurvesProps = { answer: PlanAnswer; joint: Joint; at_min: number }

export function HeatCurves({ answer, joint, at_min }: CurvesProps): JSX.Element {
  const chart = useMemo(() => heatChart(answer, joint), [answer, joint])
  const scales = scalesOf(chart)
  const height = scales.bottom + BOX.foot + chart.pads.length * BOX.pad
  const { band } = chart
  return (
    <figure class="o-stack">
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: on a narrow page the chart is scrolled by its keys */}
      <section class="hz-roll" tabIndex={0} aria-label={words.chart}>
        <svg class="hz-chart" viewBox={`0 0 ${BOX.w} ${height}`} role="img" aria-label={words.label}>
          <Grid chart={chart} scales={scales} />
          {band && <path class="hz-band" d={`${pathOf([...band[0], ...[...band[1]].reverse()], scales)}z`} />}
          <Limits chart={chart} scales={scales} isCure={answer.purpose === 'cure'} />
          {chart.lines.map((line) => (
            <path key={line.id} class={`hz-curve is-${line.kind}`} d={pathOf(line.points, scales)} />
          ))}
          <Letters lines={chart.lines} scales={scales} />
          <Pads pads={chart.pads} scales={scales} />
          {chart.heat_until_min !== undefined && (
            <Mark at_min={chart.heat_until_min} scales={scales} height={height} />
          )}
          <path class="hz-now" d={`M${scales.x(Math.min(at_min, chart.end_min))} ${BOX.top}V${height}`} />
        </svg>
      </section>
      <Key hasBand={band !== undefined} hasMetal={chart.lines.some((line) => line.kind === 'metal')} />
      <Table chart={chart} />
    </figure>
  )
}

type PartProps = { chart: HeatChart; scales: Scales }

function Grid({ chart, scales: { x, y, bottom } }: PartProps): JSX.Element {
  const degreesAt = Array.from(
    { length: (chart.top_C - chart.bottom_C) / TICK_C + 1 },
    (_, n) => chart.bottom_C + n * TICK_C,
  )
  const minutesAt = Array.from({ length: Math.floor(chart.end_min / TICK_MIN) + 1 }, (_, n) => n * TICK_MIN)
  return (
    <g class="hz-grid">
      {degreesAt.map((T) => (
        <g key={T}>
          <path d={`M${BOX.left} ${y(T)}H${BOX.w - BOX.right}`} />
          <text x={BOX.left - 8} y={y(T)} dy="0.35em" text-anchor="end">
            {degrees(10 * T)}
          </text>
        </g>
      ))}
      {minutesAt.map((t) => (
        <g key={t}>
          <path d={`M${x(t)} ${bottom}v6`} />
          <text x={x(t)} y={bottom + 22} text-anchor="middle">
            {t === 0 ? minutes(t) : t}
          </text>
        </g>
      ))}
    </g>
  )
}

function Limits({ chart, scales: { y }, isCure }: PartProps & { isCure: boolean }): JSX.Element {
  return (
    <g class="hz-limits">
      {chart.limits.map(({ kind, T_C }) => (
        <g key={kind}>
          <path class={`is-${kind}`} d={`M${BOX.left} ${y(T_C)}H${BOX.w - BOX.right}`} />
          <text
            x={kind === 'metal' ? BOX.w - BOX.right : BOX.left + 8}
            y={y(T_C) + (kind === 'maximum' ? 17 : -6)}
            text-anchor={kind === 'metal' ? 'end' : 'start'}
          >
            {kind === 'workable' && isCure ? words.minimum : words.limits[kind]} {degrees(10 * T_C)}
          </text>
        </g>
      ))}
    </g>
  )
}

/** A sensor's letter stands where its curve is highest. */
function Letters({ lines, scales: { x, y } }: { lines: readonly ChartLine[]; scales: Scales }): JSX.Element {
  return (
    <g class="hz-letters">
      {lines
        .filter((line) => line.kind === 'sensor')
        .map((line, number) => {
          const points = line.points.slice(0, Math.ceil(line.points.length / 2))
          const at = points[Math.floor((points.length * (number + 3)) / (lines.length + 4))]
          return (
            at && (
              <text key={line.id} x={x(at[0])} y={y(at[1])} dy="0.35em" text-anchor="middle">
                {line.id}
              </text>
            )
          )
        })}
    </g>
  )
}

function Pads({ pads, scales: { x, bottom } }: { pads: readonly PadPower[]; scales: Scales }): JSX.Element {
  return (
    <g class="hz-power">
      {pads.map((pad, number) => {
        const foot = bottom + BOX.foot + (number + 1) * BOX.pad - 4
        return (
          <g key={pad.pad}>
            <text x={BOX.left - 8} y={foot - 6} text-anchor="end">
              {pad.pad}
            </text>
            {pad.pieces.map((piece) => (
              <rect
                key={piece.from_min}
                x={x(piece.from_min)}
                width={Math.max(0, x(piece.until_min) - x(piece.from_min))}
                y={foot - (BOX.pad - 8) * piece.share}
                height={(BOX.pad - 8) * piece.share}
              />
            ))}
            <path d={`M${BOX.left} ${foot}H${BOX.w - BOX.right}`} />
          </g>
        )
      })}
    </g>
  )
}

function Mark({ at_min, scales, height }: { at_min: number; scales: Scales; height: number }): JSX.Element {
  const x = scales.x(at_min)
  return (
    <g class="hz-release">
      <path d={`M${x} ${BOX.top}V${height}`} />
      <text x={x + 6} y={scales.bottom - 8}>
        {words.releaseBegins} {minutes(Math.round(at_min))}
      </text>
    </g>
  )
}

function Key({ hasBand, hasMetal }: { hasBand: boolean; hasMetal: boolean }): JSX.Element {
  const lines = ['coldest', 'hottest', ...(hasMetal ? (['metal'] as const) : []), 'sensor'] as const
  return (
    <ul class="hz-key">
      {lines.map((kind) => (
        <li key={kind}>
          <svg viewBox="0 0 40 12" aria-hidden="true">
            <path class={`hz-curve is-${kind}`} d="M0 6H40" />
          </svg>
          {kind === 'sensor' ? words.sensors : words[kind]}
        </li>
      ))}
      {hasBand && (
        <li>
          <svg viewBox="0 0 40 12" aria-hidden="true">
            <path class="hz-band" d="M0 0H40V12H0z" />
          </svg>
          {words.band}
        </li>
      )}
    </ul>
  )
}

function Table({ chart }: { chart: HeatChart }): JSX.Element {
  const rows = Array.from({ length: Math.floor(chart.end_min / EVERY_MIN) + 1 }, (_, n) => n * EVERY_MIN)
  const name = (line: ChartLine): string => (line.kind === 'sensor' ? line.id : words[line.kind])
  return (
    <details class="o-details">
      <summary>{words.table}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: on a narrow page the table is scrolled by its keys */}
      <section class="hz-roll" tabIndex={0} aria-label={words.table}>
        <table class="hz-table">
          <thead>
            <tr>
              <th scope="col">{words.at}</th>
              {chart.lines.map((line) => (
                <th key={line.id} scope="col">
                  {name(line)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((at_min) => (
              <tr key={at_min}>
                <th scope="row">{minutes(at_min)}</th>
                {chart.lines.map((line) => (
                  <td key={line.id}>{degrees(Math.round(10 * (valueAt_C(line, at_min) ?? 0)))}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  )
}
