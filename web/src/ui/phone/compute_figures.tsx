// Figures of an answer with unit and band; body points, gaps and pieces as tables.
import type { JSX } from 'preact'
import { tenTo } from '../../core/computations/figures.ts'
import { findPoints, type Question } from '../../core/computations/question.ts'
import type { Answer } from '../../core/computations/shapes.ts'
import type { ResultValue } from '../../core/entries.ts'
import { Facts } from '../parts/leaf.tsx'
import { computeWords } from '../words/en_compute.ts'
import { figureWords } from '../words/en_compute_lines.ts'
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
          {figureWords(value)}
          {low !== undefined && high !== undefined && (
            <small>{computeWords.band(figureWords(low), figureWords(high))}</small>
          )}
        </span>,
      ])}
    />
  )
}

const IN_TABLES = /^(residual|moved)_|_(head|mandrel|shank)$|^(need|spare|lay)_[\d_]+mm$/

/** `margin` with margin_low and margin_high; `grip_post` with grip_low_post and grip_high_post. */
function rowsOf(values: readonly ResultValue[]): readonly Row[] {
  const named = new Map(values.map((one) => [one.name, one]))
  const ends = (name: string, end: string) =>
    named.get(`${name}_${end}`) ?? named.get(name.replace('_', `_${end}_`))
  const isEnd = (name: string) => /(^|_)(low|high)(_|$)/.test(name)
  return values
    .filter((value) => !isEnd(value.name) && !IN_TABLES.test(value.name))
    .map((value) => {
      const [low, high] = [ends(value.name, 'low'), ends(value.name, 'high')]
      return low === undefined || high === undefined || low.value === high.value
        ? { value }
        : { value, low, high }
    })
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
              <td>{figureWords(one)}</td>
              {also && <td>{figureWords(also)}</td>}
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

const PIECES = ['head', 'mandrel', 'shank'] as const
const COUNTS = ['owed', 'taken', 'lost', 'counted'] as const

/** Pieces against rivets, each kind by itself; the tray where somebody counted it. */
export function PieceTable({ answer }: { answer: Answer }): JSX.Element {
  const value = (count: string, piece: string) =>
    answer.values.find((one) => one.name === `${count}_${piece}`)
  const columns = COUNTS.filter((count) => PIECES.some((piece) => value(count, piece) !== undefined))
  const rows = PIECES.filter((piece) => value('owed', piece) !== undefined)
  return (
    <table class="sums compute-table">
      <thead>
        <tr>
          <th scope="col">{computeWords.piece}</th>
          {columns.map((count) => (
            <th key={count} scope="col">
              {computeWords.tally[count]}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((piece) => (
          <tr key={piece} class={isShort(answer, piece) ? 'in-stop' : ''}>
            <th scope="row">{computeWords.pieces[piece]}</th>
            {columns.map((count) => (
              <td key={count}>{value(count, piece)?.value ?? ''}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function isShort({ lines }: Answer, piece: string): boolean {
  return lines.some(
    (line) => line.tone === 'stop' && (line.code.endsWith(`_${piece}`) || line.code === 'spent_differs'),
  )
}
