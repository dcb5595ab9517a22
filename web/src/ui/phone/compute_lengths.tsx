// A grip before rows of rivet lengths: to scale with its band, the length of each group, and the choice where it asks.
import type { JSX } from 'preact'
import type { RivetTable } from '../../core/computations/inputs.ts'
import type { Standing } from '../../core/computations/rivet_lengths.ts'
import type { ResultValue } from '../../core/entries.ts'
import { type Chosen, LEFT_OPEN } from '../../core/views/length_choice.ts'
import { Key } from '../parts/key.tsx'
import { Facts } from '../parts/leaf.tsx'
import { lengthWords as words } from '../words/en_compute_lengths.ts'
import { lengthName } from '../words/en_length.ts'
import { capital, quantity } from '../words/format.ts'
import './compute_lengths.css'

type Label = (id: string) => string
type Props = {
  table: RivetTable
  standings: readonly Standing[]
  chosen: Chosen
  label: Label
}

/** Each group's length with the supplier's number, above the grip that it is for. */
export function GroupLengths({ table, standings, chosen, label }: Props): JSX.Element {
  return (
    <Facts
      rows={standings.map((one) => {
        const { group, mean, low, high } = one.grip
        const row = rowOf(one, chosen)
        const open = one.stand === 'no_fit' ? words.none : words.open
        return [
          capital(label(group)),
          <span key={group} class="figures">
            <strong class="length-now">{row === undefined ? open : lengthOf(row.length, table)}</strong>
            {row?.part && ` ${row.part}`}
            <small>
              {words.grip(figure(mean))}
              {low.value !== high.value && `, ${words.band(figure(low), figure(high))}`}
            </small>
          </span>,
        ]
      })}
    />
  )
}

type ChoiceProps = {
  table: RivetTable
  asking: readonly Standing[]
  chosen: Chosen
  missing: readonly Standing[]
  label: Label
  onChoose: (group: string, length: number) => void
}

/** A key for each length that is offered to a group, and one that leaves it open. */
export function LengthChoice(props: ChoiceProps): JSX.Element {
  const { table, asking, chosen, missing, label, onChoose } = props
  const { decimals, unit } = table
  return (
    <>
      {asking.map(({ grip: { group, mean }, rows }) => (
        <fieldset key={group} class="length-choice">
          <legend>{words.choose(label(group), figure(mean))}</legend>
          <div class="compute-choices">
            {rows.map(({ length, low, high, part }) => (
              <Key
                key={length}
                pressed={chosen[group] === length}
                small={[part, words.span(quantity(low, decimals, ''), quantity(high, decimals, unit))]
                  .filter(Boolean)
                  .join(', ')}
                onPress={() => onChoose(group, length)}
              >
                {lengthOf(length, table)}
              </Key>
            ))}
            <Key
              class="length-open"
              pressed={chosen[group] === LEFT_OPEN}
              onPress={() => onChoose(group, LEFT_OPEN)}
            >
              {words.leave}
            </Key>
          </div>
        </fieldset>
      ))}
      <p class="length-missing" role="status">
        {missing.length > 0 ? words.missing(missing.map(({ grip }) => label(grip.group))) : ''}
      </p>
    </>
  )
}

/** Holds a number to its unit on the screen; what is recorded is searched for as it is typed. */
const GLUE = '\u00a0'

/** `Header 12 mm, post left open`, before the reason. */
export function choiceSaid(
  asking: readonly Standing[],
  chosen: Chosen,
  table: RivetTable,
  label: Label,
): string {
  const said = asking.map(({ grip: { group } }) => {
    const length = chosen[group] ?? LEFT_OPEN
    return length === LEFT_OPEN
      ? words.left(label(group))
      : words.chosen(label(group), lengthOf(length, table))
  })
  return capital(said.join(', ')).replaceAll(GLUE, ' ')
}

/** The row that holds a grip, or the one that was chosen for it. */
export function rowOf({ grip, stand, rows }: Standing, chosen: Chosen): Standing['rows'][number] | undefined {
  return stand === 'held' ? rows[0] : rows.find(({ length }) => length === chosen[grip.group])
}

export function lengthOf(length: number, { decimals, unit }: RivetTable): string {
  return lengthName(length, decimals, unit)
}

export function figure({ value, decimals, unit }: ResultValue): string {
  return quantity(value, decimals, unit)
}
