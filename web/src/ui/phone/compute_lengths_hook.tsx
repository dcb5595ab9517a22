// What a page of a grip holds beside every computation: the drawing of its rows, and the lengths that a person chooses.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { ResultValue } from '../../core/entries.ts'
import type { ComputeView } from '../../core/views/compute_view.ts'
import {
  askingOf,
  type Chosen,
  chosenIn,
  chosenValues,
  lengthsOf,
  unchosen,
} from '../../core/views/length_choice.ts'
import { LengthLadder } from './compute_ladder.tsx'
import { choiceSaid, GroupLengths, LengthChoice } from './compute_lengths.tsx'

export type Lengths = {
  /** In the place of the figures; undefined where the computation is about no lengths. */
  readonly drawn: JSX.Element | undefined
  readonly choice: JSX.Element | undefined
  /** What was chosen, as figures of the result, and in words before the reason. */
  readonly values: readonly ResultValue[]
  readonly said: string
  /** Says what is not chosen yet, if anything is. */
  readonly isMissing: () => boolean
}

const NONE: Lengths = { drawn: undefined, choice: undefined, values: [], said: '', isMissing: () => false }

export function useLengths(view: ComputeView, label: (id: string) => string): Lengths {
  const [picked, setPicked] = useState<Chosen>({})
  const [tried, setTried] = useState(false)
  const found = view.answer && lengthsOf(view.gathered.question)
  if (found === undefined) return NONE
  const { table, standings } = found
  const recorded = view.recorded?.entry
  const chosen = { ...(recorded?.kind === 'result' ? chosenIn(recorded.body.values) : {}), ...picked }
  const asking = askingOf(standings)
  const missing = unchosen(standings, chosen)
  const shown = { table, standings, chosen, label }
  return {
    drawn: (
      <>
        <LengthLadder {...shown} />
        <GroupLengths {...shown} />
      </>
    ),
    choice:
      asking.length > 0 ? (
        <LengthChoice
          {...{ table, asking, chosen, label }}
          missing={tried ? missing : []}
          onChoose={(group, length) => setPicked({ ...picked, [group]: length })}
        />
      ) : undefined,
    values: chosenValues(view.gathered.question, chosen),
    said: asking.length > 0 ? choiceSaid(asking, chosen, table, label) : '',
    isMissing: () => {
      setTried(true)
      return missing.length > 0
    },
  }
}
