// What a computation was worked out from: each input with its value, its step and who recorded it.
import type { JSX } from 'preact'
import type { Input, Lots, Points, RivetTable } from '../../core/computations/inputs.ts'
import type { Card } from '../../core/views/card.ts'
import type { InputView } from '../../core/views/compute_inputs.ts'
import type { Source, Wait } from '../../core/views/compute_sources.ts'
import type { SheetUse, TableUse } from '../../core/views/sheet_inputs.ts'
import { Mark } from '../parts/mark.tsx'
import { computeWords } from '../words/en_compute.ts'
import { valueWords } from '../words/en_compute_lines.ts'
import { inputName } from '../words/en_compute_names.ts'
import { lengthName, lengthsIn } from '../words/en_length.ts'
import { capital, clockTime, firstName, listed, quantity, when } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { paths } from './router.ts'

export function WaitList({ card, waits }: { card: Card; waits: readonly Wait[] }): JSX.Element {
  const once = new Map(waits.map((one) => [`${one.ref.method}/${one.ref.step}/${one.ref.ask}`, one]))
  return (
    <ul class="compute-list">
      {[...once.values()].map(({ ref, place, ask }) => (
        <li key={`${ref.step}/${ref.ask}`}>
          {place === undefined || ask === undefined ? (
            <span>{computeWords.notPinned}</span>
          ) : (
            <a href={paths.ask(card.job, place.method.id, place.step.id, ask.id)}>
              <span>{computeWords.wait(capital(ask.name), place.number)}</span>
              <Mark name="onward" />
            </a>
          )}
        </li>
      ))}
    </ul>
  )
}

export function InputList({
  card,
  inputs,
  waiting,
}: {
  card: Card
  inputs: readonly InputView[]
  waiting: boolean
}): JSX.Element {
  return (
    <details class="compute-more">
      <Summary>{waiting ? computeWords.already(inputs.length) : computeWords.inputs(inputs.length)}</Summary>
      <ul class="compute-list">
        {inputs.map((one) => (
          <li key={one.name}>
            <InputRow card={card} {...one} />
          </li>
        ))}
      </ul>
    </details>
  )
}

/** What opens under a finger: the words, and a mark that turns. */
export function Summary({ children }: { children: string }): JSX.Element {
  return (
    <summary>
      <span>{children}</span>
      <Mark name="onward" />
    </summary>
  )
}

function InputRow({ card, name, input, sources, sheet, table }: InputView & { card: Card }): JSX.Element {
  const [source] = sources
  const told = (
    <span>
      <strong>{capital(source?.ask.name ?? inputName(name))}</strong>
      <span class="compute-value">{inputWords(input, source)}</span>
      {sheet && <small>{sheetWords(sheet)}</small>}
      {table && <small>{tableSheetWords(table)}</small>}
      {!sheet && !table && (
        <small>{source === undefined ? bareWords(input) : sourceWords(card, source)}</small>
      )}
    </span>
  )
  if (input.kind === 'rivets') return <MapLink card={card}>{told}</MapLink>
  if (source === undefined) return told
  return (
    <a href={paths.ask(card.job, source.place.method.id, source.place.step.id, source.ask.id)}>
      {told}
      <Mark name="onward" />
    </a>
  )
}

function MapLink({ card, children }: { card: Card; children: JSX.Element }): JSX.Element {
  return (
    <a href={paths.map(card.job)}>
      {children}
      <Mark name="onward" />
    </a>
  )
}

/** Of what no one answer gave. */
function bareWords({ kind }: Input): string {
  return kind === 'rivets' ? computeWords.onTheMap : computeWords.constant
}

/** Which sheet it is from, its range, and what the method says where that differs. */
function sheetWords({ sheet, value, instead }: SheetUse): string {
  const { low, high, decimals, unit } = value
  const figure = (one: number) => quantity(one, decimals, unit)
  const method = instead && quantity(instead.value, instead.decimals, instead.unit)
  return [
    computeWords.sheet(sheet.sheet, sheet.revision),
    ...(low === high ? [] : [computeWords.sheetBand(figure(low), figure(high))]),
    ...(method === undefined || method === figure(value.value) ? [] : [computeWords.instead(method)]),
  ].join('; ')
}

/** Which sheet the rows are from, and what the method says in their place. */
function tableSheetWords({ sheet, table, instead }: TableUse): string {
  const method = instead && tableWords(instead)
  return [
    computeWords.sheet(sheet.sheet, sheet.revision),
    ...(method === undefined || method === tableWords(table) ? [] : [computeWords.instead(method)]),
  ].join('; ')
}

function sourceWords(card: Card, { place, known }: Source): string {
  const { at_ms, by } = known.entry
  return computeWords.readAt(when(at_ms, Date.now()), firstName(personName(card, by)), place.number)
}

function inputWords(input: Input, source: Source | undefined): string {
  switch (input.kind) {
    case 'quantity':
      return quantity(input.value, input.decimals, input.unit)
    case 'points':
      return pointWords(input, source)
    case 'word':
      return input.text.replaceAll('_', ' ')
    case 'chosen':
      return optionWords(input.option, source)
    case 'moment':
      return clockTime(input.at_ms)
    case 'lots':
      return lotWords(input)
    case 'earlier': {
      const lengths = lengthsIn(input.values)
      if (lengths !== '') return lengths
      const [first] = input.values
      return first === undefined ? computeWords.verdict[input.verdict] : valueWords(first)
    }
    case 'runs':
      return listed(input.runs.map((run) => clockTime(run.on_ms)))
    case 'rivets':
      return computeWords.rivets(input.rivets.length)
    case 'table':
      return tableWords(input)
    case 'plan':
      return computeWords.planned(input.plan.slice(0, 12), quantity(input.figures.ambient_dC, 1, 'C'))
  }
}

/** Row by row: the length and the grips that it is for. */
function tableWords({ rows, decimals, unit }: RivetTable): string {
  const figure = (value: number) => quantity(value, decimals, unit)
  return rows
    .map(({ length, low, high, part = '' }) => {
      const name = [length > 0 ? lengthName(length, decimals, unit) : '', part].filter(Boolean).join(', ')
      return computeWords.row(name, figure(low), figure(high))
    })
    .join('; ')
}

function pointWords({ at, decimals, unit }: Points, source: Source | undefined): string {
  const names = source?.ask.kind === 'reading' ? source.ask.points : []
  return at
    .map(([point, value]) => {
      const name = names.find((one) => one.id === point)?.name ?? point
      return `${name} ${quantity(value, decimals, unit)}`
    })
    .join(', ')
}

function optionWords(option: string, source: Source | undefined): string {
  const options = source?.ask.kind === 'choice' ? source.ask.options : []
  return options.find((one) => one.id === option)?.name ?? option
}

function lotWords({ lots }: Lots): string {
  return listed(lots.map((one) => one.lot))
}
