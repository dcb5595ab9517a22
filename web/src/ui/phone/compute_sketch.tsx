// The body's points in an oblique view from behind, and what is left at each after the best fit.
import type { JSX } from 'preact'
import { fitOf } from '../../core/computations/best_fit.ts'
import type { Question } from '../../core/computations/question.ts'
import type { Point } from '../../core/computations/rigid_fit.ts'
import { computeWords } from '../words/en_compute.ts'

const SKETCH = { width: 320, height: 250, pad: 40, larger: 100, depth: 0.3 }

type Spot = { readonly x: number; readonly y: number }

/** Left is left, up is up; what is farther forward stands up and to the right. */
function oblique([rear, left, up]: Point): Spot {
  return { x: -left - rear * SKETCH.depth, y: up - rear * SKETCH.depth }
}

export function FitSketch({
  question,
  label,
}: {
  question: Question
  label: (id: string) => string
}): JSX.Element {
  const { nominal, fit } = fitOf(question)
  const places = [...nominal].map(([name, at]) => ({ name, at, off: fit.residual.get(name) ?? [0, 0, 0] }))
  const frame = frameOf(places.map((one) => oblique(one.at)))
  return (
    <figure class="compute-sketch">
      <svg
        viewBox={`0 0 ${SKETCH.width} ${SKETCH.height}`}
        role="img"
        aria-label={computeWords.sketch(places.length)}
      >
        {places.map(({ name, at, off }) => {
          const from = frame(oblique(at))
          const to = frame(
            oblique([0, 1, 2].map((i) => (at[i] ?? 0) + (off[i] ?? 0) * SKETCH.larger) as unknown as Point),
          )
          const isLeft = from.x < SKETCH.width / 2
          return (
            <g key={name}>
              <line x1={from.x} y1={from.y} x2={to.x} y2={to.y} />
              <circle cx={from.x} cy={from.y} r={5} />
              <text x={from.x + (isLeft ? -10 : 10)} y={from.y - 8} text-anchor={isLeft ? 'end' : 'start'}>
                {label(name)}
              </text>
            </g>
          )
        })}
      </svg>
      <figcaption>{computeWords.after}</figcaption>
    </figure>
  )
}

/** Fits all spots into the drawing, one scale both ways. */
function frameOf(spots: readonly Spot[]): (spot: Spot) => Spot {
  const [xs, ys] = [spots.map((one) => one.x), spots.map((one) => one.y)]
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
  const scale = Math.min(
    (SKETCH.width - 2 * SKETCH.pad) / Math.max(1, right - left),
    (SKETCH.height - 2 * SKETCH.pad) / Math.max(1, high - low),
  )
  return ({ x, y }) => ({
    x: SKETCH.width / 2 + (x - (left + right) / 2) * scale,
    y: SKETCH.height / 2 - (y - (low + high) / 2) * scale,
  })
}
