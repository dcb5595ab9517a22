// Figures of an answer with unit and band; body points as a sketch, gaps and steps as a table.
import type { JSX } from 'preact'
import { fitOf } from '../../core/computations/best_fit.ts'
import { tenTo } from '../../core/computations/figures.ts'
import { findPoints, type Question } from '../../core/computations/question.ts'
import type { Answer } from '../../core/computations/shapes.ts'
import type { ResultValue } from '../../core/entries.ts'
import { Facts } from '../parts/leaf.tsx'
import { computeWords, valueWords } from '../words/en_compute.ts'
import { valueName } from '../words/en_compute_names.ts'
import { scaled } from '../words/format.ts'

type Label = (id: string) => string

/** A figure, and the ends of its band where it has one. */
type Row = { readonly value: ResultValue; readonly low?: ResultValue; readonly high?: ResultValue }

export function Figures({ answer, label }: { answer: Answer; label: Label }): JSX.Element {
  return (
    <Facts
      rows={rowsOf(answer.values).map(({ value, low, high }) => [
        valueName(value.name, label),
        <span key={value.name} class="figures">
          {valueWords(value)}
          {low !== undefined && high !== undefined && (
            <small>{computeWords.band(valueWords(low), valueWords(high))}</small>
          )}
        </span>,
      ])}
    />
  )
}

/** `margin` with margin_low and margin_high; `grip_post` with grip_low_post and grip_high_post. */
function rowsOf(values: readonly ResultValue[]): readonly Row[] {
  const named = new Map(values.map((one) => [one.name, one]))
  const ends = (name: string, end: string) =>
    named.get(`${name}_${end}`) ?? named.get(name.replace('_', `_${end}_`))
  const isEnd = (name: string) => /(^|_)(low|high)(_|$)/.test(name)
  return values
    .filter((value) => !isEnd(value.name) && !/^(residual|moved)_/.test(value.name))
    .map((value) => {
      const [low, high] = [ends(value.name, 'low'), ends(value.name, 'high')]
      return low === undefined || high === undefined || low.value === high.value
        ? { value }
        : { value, low, high }
    })
}

const SKETCH = { width: 320, height: 220, pad: 34, larger: 100 }

/** The body from behind (left to the left, up is up), each residual as a line 100 times as long. */
export function FitSketch({ question, label }: { question: Question; label: Label }): JSX.Element {
  const { nominal, fit } = fitOf(question)
  const at = [...nominal].map(([name, [, y, z]]) => ({
    name,
    y,
    z,
    off: fit.residual.get(name) ?? [0, 0, 0],
  }))
  const [minY, maxY] = [Math.min(...at.map((one) => one.y)), Math.max(...at.map((one) => one.y))]
  const [minZ, maxZ] = [Math.min(...at.map((one) => one.z)), Math.max(...at.map((one) => one.z))]
  const scale = Math.min(
    (SKETCH.width - 2 * SKETCH.pad) / Math.max(1, maxY - minY),
    (SKETCH.height - 2 * SKETCH.pad) / Math.max(1, maxZ - minZ),
  )
  const x = (y: number) => SKETCH.width / 2 - (y - (minY + maxY) / 2) * scale
  const up = (z: number) => SKETCH.height - SKETCH.pad - (z - minZ) * scale
  return (
    <figure class="compute-sketch">
      <svg
        viewBox={`0 0 ${SKETCH.width} ${SKETCH.height}`}
        role="img"
        aria-label={computeWords.sketch(at.length)}
      >
        {at.map(({ name, y, z, off }) => (
          <g key={name}>
            <line
              x1={x(y)}
              y1={up(z)}
              x2={x(y + off[1] * SKETCH.larger)}
              y2={up(z + off[2] * SKETCH.larger)}
            />
            <circle cx={x(y)} cy={up(z)} r={5} />
            <text x={x(y) + (y > 0 ? -10 : 10)} y={up(z) - 8} text-anchor={y > 0 ? 'end' : 'start'}>
              {label(name)}
            </text>
          </g>
        ))}
      </svg>
      <figcaption>{computeWords.after}</figcaption>
    </figure>
  )
}

/** What is left at each point, and what moved since before. */
export function PointTable({ answer, label }: { answer: Answer; label: Label }): JSX.Element {
  const part = (prefix: string) => answer.values.filter((one) => one.name.startsWith(prefix))
  const moved = new Map(part('moved_').map((one) => [one.name.slice('moved_'.length), one]))
  return (
    <table class="sums compute-table">
      <thead>
        <tr>
          <th scope="col">{computeWords.point}</th>
          <th scope="col">{computeWords.left}</th>
          {moved.size > 0 && <th scope="col">{computeWords.moved}</th>}
        </tr>
      </thead>
      <tbody>
        {part('residual_').map((one) => {
          const id = one.name.slice('residual_'.length)
          const also = moved.get(id)
          return (
            <tr key={id} class={isNamed(answer, id) ? 'in-stop' : ''}>
              <th scope="row">{label(id)}</th>
              <td>{valueWords(one)}</td>
              {also && <td>{valueWords(also)}</td>}
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}

/** Gaps and steps point by point, with what changed since the dry fit. */
export function GapTable({
  question,
  answer,
  label,
}: {
  question: Question
  answer: Answer
  label: Label
}): JSX.Element {
  const [gaps, steps] = [findPoints(question, 'gap'), findPoints(question, 'step')]
  const dry = findPoints(question, 'dry_gap')
  return (
    <table class="sums compute-table">
      <thead>
        <tr>
          <th scope="col">{computeWords.point}</th>
          <th scope="col">{computeWords.gap}</th>
          <th scope="col">{computeWords.step}</th>
          {dry && <th scope="col">{computeWords.change}</th>}
        </tr>
      </thead>
      <tbody>
        {[...(gaps ?? [])].map(([id, gap]) => (
          <tr key={id} class={isNamed(answer, id) ? 'in-stop' : ''}>
            <th scope="row">{label(id)}</th>
            <td>{scaled(gap.value, gap.decimals)}</td>
            <td>{cell(steps?.get(id))}</td>
            {dry && <td>{changeOf(gap, dry.get(id))}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

type Figure = { readonly value: number; readonly decimals: number }

function cell(one: Figure | undefined): string {
  return one === undefined ? '' : scaled(one.value, one.decimals)
}

function changeOf(now: Figure, before: Figure | undefined): string {
  if (before === undefined) return ''
  const decimals = Math.max(now.decimals, before.decimals)
  const steps = (one: Figure) => one.value * tenTo(decimals - one.decimals)
  return scaled(steps(now) - steps(before), decimals)
}

/** Whether a line that stops names this point. */
function isNamed({ lines }: Answer, id: string): boolean {
  return lines.some((line) => line.tone === 'stop' && line.at.includes(id))
}
