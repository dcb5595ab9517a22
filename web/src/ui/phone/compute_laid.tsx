// Rivets to lay ready, length by length: for the holes, to spare, for trial.
import type { JSX } from 'preact'
import type { Answer } from '../../core/computations/shapes.ts'
import type { Card } from '../../core/views/card.ts'
import type { ComputeView } from '../../core/views/compute_view.ts'
import { computeWords } from '../words/en_compute.ts'
import { laidOf, laidWords as words } from '../words/en_compute_lengths.ts'
import { paths } from './router.ts'

const OPEN = 'length_open'
const COLUMNS = ['need', 'spare', 'trial', 'lay'] as const

export function LaidTable({ answer }: { answer: Answer }): JSX.Element | null {
  const laid = laidOf(answer.values)
  if (laid.length === 0) return null
  const columns = COLUMNS.filter((column) => laid.some((one) => one[column] > 0))
  return (
    <table class="sums compute-table">
      <thead>
        <tr>
          <th scope="col">{words.length}</th>
          {columns.map((column) => (
            <th key={column} scope="col">
              {words[column]}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {laid.map((one) => (
          <tr key={one.length}>
            <th scope="row">{one.length}</th>
            {columns.map((column) => (
              <td key={column}>{column === 'lay' ? <strong>{one.lay}</strong> : one[column]}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** To where the length is chosen that is missing here. */
export function LengthLead(props: { card: Card; view: ComputeView; answer: Answer }): JSX.Element | null {
  const { card, view, answer } = props
  const source = view.inputs.find(({ name }) => name === 'grip')?.sources[0]
  if (source === undefined || !answer.lines.some(({ code }) => code === OPEN)) return null
  const { place, ask } = source
  return (
    <a class="key key-plain" href={paths.ask(card.job, place.method.id, place.step.id, ask.id)}>
      {computeWords.to(ask.name)}
    </a>
  )
}
