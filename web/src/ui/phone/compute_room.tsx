// A hole in its room, to scale: the edge, the next hole, and how near each may be.
import type { JSX } from 'preact'
import { numberOf } from '../../core/computations/figures.ts'
import { find, type Question } from '../../core/computations/question.ts'
import { computeWords } from '../words/en_compute.ts'
import { quantity } from '../words/format.ts'

const DRAWN = { width: 320, height: 120, top: 22, side: 6 }
const EDGE_DIAMETERS = 2
const PITCH_DIAMETERS = 3
const MOST_PX_PER_MM = 14
const CROSS_PX = 4

type Room = {
  readonly rivet_mm: number
  readonly larger_mm: number
  readonly edge_mm: number
  readonly edgeLeast_mm: number
  /** 0 where it is not asked about. */
  readonly pitch_mm: number
  readonly pitchLeast_mm: number
}

export function RoomSketch({ question }: { question: Question }): JSX.Element | null {
  const room = roomOf(question)
  if (room === undefined) return null
  const { rivet_mm, larger_mm, edge_mm, edgeLeast_mm, pitch_mm, pitchLeast_mm } = room
  const widest = Math.max(rivet_mm, larger_mm)
  const scale = Math.min(MOST_PX_PER_MM, (DRAWN.width - 2 * DRAWN.side) / (edge_mm + pitch_mm + widest))
  const px = (mm: number): number => DRAWN.side + mm * scale
  const middle = DRAWN.height / 2 + DRAWN.top / 2
  const said = computeWords.room(
    mm(edge_mm),
    mm(edgeLeast_mm),
    pitch_mm > 0 ? mm(pitch_mm) : '',
    mm(pitchLeast_mm),
  )
  return (
    <figure class="compute-sketch compute-room">
      <svg viewBox={`0 0 ${DRAWN.width} ${DRAWN.height}`} role="img" aria-label={said}>
        <rect
          class="room-near"
          x={px(0)}
          y={DRAWN.top}
          width={edgeLeast_mm * scale}
          height={DRAWN.height - DRAWN.top}
        />
        <line class="room-edge" x1={px(0)} y1={DRAWN.top} x2={px(0)} y2={DRAWN.height} />
        <Hole at={px(edge_mm)} y={middle} scale={scale} rivet_mm={rivet_mm} larger_mm={larger_mm} />
        {pitch_mm > 0 && (
          <>
            <path class="room-least" d={arc(px(edge_mm), middle, pitchLeast_mm * scale)} />
            <Hole at={px(edge_mm + pitch_mm)} y={middle} scale={scale} rivet_mm={rivet_mm} larger_mm={0} />
          </>
        )}
        <Span from={px(0)} to={px(edge_mm)} word={mm(edge_mm)} />
        {pitch_mm > 0 && <Span from={px(edge_mm)} to={px(edge_mm + pitch_mm)} word={mm(pitch_mm)} />}
      </svg>
      <figcaption>{said}</figcaption>
    </figure>
  )
}

function Hole(props: {
  at: number
  y: number
  scale: number
  rivet_mm: number
  larger_mm: number
}): JSX.Element {
  const { at, y, scale, rivet_mm, larger_mm } = props
  return (
    <>
      {larger_mm > 0 && <circle class="room-larger" cx={at} cy={y} r={(larger_mm * scale) / 2} />}
      <circle class="room-hole" cx={at} cy={y} r={(rivet_mm * scale) / 2} />
      <path
        class="room-centre"
        d={`M${at - CROSS_PX} ${y}h${2 * CROSS_PX}M${at} ${y - CROSS_PX}v${2 * CROSS_PX}`}
      />
    </>
  )
}

/** How near the next hole may come: that part of the circle which faces it. */
function arc(x: number, y: number, radius: number): string {
  const rise = Math.min(0.9 * radius, (DRAWN.height - DRAWN.top) / 2 - 2)
  const run = Math.sqrt(radius ** 2 - rise ** 2)
  return `M${x + run} ${y - rise}A${radius} ${radius} 0 0 1 ${x + run} ${y + rise}`
}

function Span({ from, to, word }: { from: number; to: number; word: string }): JSX.Element {
  const y = DRAWN.top - 8
  return (
    <>
      <line x1={from} y1={y + 4} x2={to} y2={y + 4} />
      <text x={(from + to) / 2} y={y} text-anchor="middle">
        {word}
      </text>
    </>
  )
}

/** Of one hole, or of the worst; undefined where the edge is not measured by one figure. */
function roomOf(question: Question): Room | undefined {
  const figure = (name: string): number => {
    const found = find(question, name, 'quantity')
    return found === undefined ? 0 : numberOf(found)
  }
  const [edge_mm, rivet_mm, larger_mm] = [figure('edge'), figure('nominal'), figure('next_size')]
  if (edge_mm <= 0 || rivet_mm <= 0) return undefined
  const widest = Math.max(rivet_mm, larger_mm)
  return {
    rivet_mm,
    larger_mm,
    edge_mm,
    edgeLeast_mm: (figure('least') || EDGE_DIAMETERS) * widest,
    pitch_mm: figure('pitch'),
    pitchLeast_mm: PITCH_DIAMETERS * widest,
  }
}

function mm(value: number): string {
  return quantity(Math.round(value * 10), 1, 'mm')
}
