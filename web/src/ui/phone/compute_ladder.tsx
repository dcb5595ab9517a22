// Rows of rivet lengths to scale, and under them the grip of each group from its thinnest to its thickest.
import type { JSX } from 'preact'
import { numberOf, tenTo } from '../../core/computations/figures.ts'
import type { RivetTable } from '../../core/computations/inputs.ts'
import type { Standing } from '../../core/computations/rivet_lengths.ts'
import type { Chosen } from '../../core/views/length_choice.ts'
import { lengthWords as words } from '../words/en_compute_lengths.ts'
import { capital, quantity } from '../words/format.ts'
import { figure, lengthOf, rowOf } from './compute_lengths.tsx'

const DRAWN = { width: 320, side: 14, lane: 34, ends: 24, group: 46, bar: 8 }
const LEAST_APART_PX = 34
const UNIT_PX = 20
const AROUND = 1

type Row = RivetTable['rows'][number]
type Props = {
  table: RivetTable
  standings: readonly Standing[]
  chosen: Chosen
  label: (id: string) => string
}

export function LengthLadder({ table, standings, chosen, label }: Props): JSX.Element {
  const rows = shownRows(table, standings)
  const px = scaleOf(table, rows, standings)
  const lanes = rows.some((row, place) => row.low < (rows[place - 1]?.high ?? 0)) ? 2 : 1
  const top = lanes * DRAWN.lane + DRAWN.ends
  const height = top + standings.length * DRAWN.group
  return (
    <figure class="length-ladder">
      <svg
        viewBox={`0 0 ${DRAWN.width} ${height}`}
        role="img"
        aria-label={saidOf(table, rows, standings, chosen, label)}
      >
        {rows.map((row, place) => (
          <RowBox key={row.length} row={row} table={table} px={px} y={(place % lanes) * DRAWN.lane} />
        ))}
        {endsOf(rows, table, px).map(({ x, word }) => (
          <g key={word}>
            <line class="ladder-end" x1={x} y1={lanes * DRAWN.lane} x2={x} y2={height} />
            <text
              class="ladder-ends"
              x={isLast(word) ? Math.min(x + DRAWN.side + UNIT_PX, DRAWN.width) : x}
              y={top - 8}
              text-anchor={isLast(word) ? 'end' : 'middle'}
            >
              {word}
            </text>
          </g>
        ))}
        {standings.map((one, place) => (
          <Track
            key={one.grip.group}
            {...{ one, table, px, chosen }}
            name={capital(label(one.grip.group))}
            y={top + place * DRAWN.group}
          />
        ))}
      </svg>
    </figure>
  )
}

/** The last number bears the unit. */
function isLast(word: string): boolean {
  return word.endsWith('mm')
}

type Px = (mm: number) => number

function RowBox({ row, table, px, y }: { row: Row; table: RivetTable; px: Px; y: number }): JSX.Element {
  const [from, to] = [px(row.low / tenTo(table.decimals)), px(row.high / tenTo(table.decimals))]
  return (
    <g class="ladder-row">
      <rect x={from} y={y + 1} width={to - from} height={DRAWN.lane - 6} />
      <text x={(from + to) / 2} y={y + 20} text-anchor="middle">
        {lengthOf(row.length, table)}
      </text>
    </g>
  )
}

/** The rows that are meant, shaded; on them the grip as a bar, with a stroke at what was measured. */
function Track(props: {
  one: Standing
  table: RivetTable
  px: Px
  chosen: Chosen
  name: string
  y: number
}): JSX.Element {
  const { one, table, px, chosen, name, y } = props
  const row = rowOf(one, chosen)
  const meant = row === undefined ? one.rows : [row]
  const { mean, low, high } = one.grip
  const middle = y + DRAWN.group - 16
  const mm = (steps: number): number => steps / tenTo(table.decimals)
  const [from, to, at] = [px(numberOf(low)), px(numberOf(high)), px(numberOf(mean))]
  return (
    <g class={`ladder-${row === undefined ? (one.stand === 'no_fit' ? 'none' : 'asked') : 'held'}`}>
      {meant.map(({ length, low: begins, high: ends }) => (
        <rect
          key={length}
          x={px(mm(begins))}
          y={middle - 11}
          width={px(mm(ends)) - px(mm(begins))}
          height={22}
        />
      ))}
      <text class="ladder-name" x={0} y={y + 14}>
        {name}
      </text>
      <text class="ladder-grip" x={DRAWN.width} y={y + 14} text-anchor="end">
        {figure(mean)}
      </text>
      <line class="ladder-band" x1={from} y1={middle} x2={Math.max(to, from + 1)} y2={middle} />
      <line class="ladder-mean" x1={at} y1={middle - 12} x2={at} y2={middle + 12} />
    </g>
  )
}

/** The rows that any grip touches, and one on either side. */
function shownRows({ rows }: RivetTable, standings: readonly Standing[]): readonly Row[] {
  const touched = rows.flatMap((row, place) =>
    standings.some((one) => one.rows.includes(row)) ? [place] : [],
  )
  if (touched.length === 0) return rows
  return rows.slice(Math.max(0, Math.min(...touched) - AROUND), Math.max(...touched) + AROUND + 1)
}

/** Millimetres to pixels, so that the rows and every grip are on the drawing. */
function scaleOf({ decimals }: RivetTable, rows: readonly Row[], standings: readonly Standing[]): Px {
  const mm = [
    ...rows.flatMap((row) => [row.low / tenTo(decimals), row.high / tenTo(decimals)]),
    ...standings.flatMap(({ grip: { low, high } }) => [numberOf(low), numberOf(high)]),
  ]
  const [least, most] = [Math.min(...mm), Math.max(...mm)]
  const scale = (DRAWN.width - 2 * DRAWN.side) / Math.max(most - least, 1)
  return (at) => DRAWN.side + (at - least) * scale
}

/** Where rows begin and end, each number once and none over another, from the last one back, which bears the unit. */
function endsOf(
  rows: readonly Row[],
  { decimals, unit }: RivetTable,
  px: Px,
): readonly { readonly x: number; readonly word: string }[] {
  const ends = [...new Set(rows.flatMap((row) => [row.low, row.high]))].sort((a, b) => b - a)
  let next = Number.POSITIVE_INFINITY
  return ends.flatMap((end, place) => {
    const x = px(end / tenTo(decimals))
    if (next - x < LEAST_APART_PX) return []
    next = place === 0 ? x - UNIT_PX : x
    return [{ x, word: quantity(end, decimals, place === 0 ? unit : '') }]
  })
}

function saidOf(
  table: RivetTable,
  rows: readonly Row[],
  standings: readonly Standing[],
  chosen: Chosen,
  label: Props['label'],
): string {
  const mm = (steps: number): string => quantity(steps, table.decimals, table.unit)
  return words.drawn(
    rows.map((row) => words.row(lengthOf(row.length, table), mm(row.low), mm(row.high))),
    standings.map((one) => {
      const row = rowOf(one, chosen)
      const length = row === undefined ? words.open : lengthOf(row.length, table)
      return `${capital(label(one.grip.group))}: ${words.grip(figure(one.grip.mean))}, ${length}`
    }),
  )
}
