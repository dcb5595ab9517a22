// A state as look has it: word, then shape, then colour; without colour nothing is lost.
import type { JSX } from 'preact'
import { w } from '../words/en.ts'
import { Mark, type MarkName } from './mark.tsx'

const STATES = {
  open: { mark: 'open', ink: '' },
  done: { mark: 'done', ink: 'in-bay' },
  not_applicable: { mark: 'absent', ink: '' },
  next: { mark: 'next', ink: 'in-bay' },
  held: { mark: 'held', ink: 'in-stop' },
  struck: { mark: 'struck', ink: '' },
  late: { mark: 'late', ink: '' },
  deviation: { mark: 'deviation', ink: 'in-dev' },
  finding: { mark: 'finding', ink: 'in-stop' },
  phone: { mark: 'phone', ink: '' },
  office: { mark: 'office', ink: 'in-bay' },
  filed: { mark: 'filed', ink: '' },
  aside: { mark: 'aside', ink: '' },
  refused: { mark: 'refused', ink: 'in-stop' },
  waits: { mark: 'clock', ink: '' },
  later: { mark: 'later', ink: '' },
} as const satisfies Record<string, { mark: MarkName; ink: string }>

export type StateName = keyof typeof STATES

export function StateWord({ state, word }: { state: StateName; word?: string | undefined }): JSX.Element {
  const { mark, ink } = STATES[state]
  return (
    <span class={`state ${ink}`}>
      <Mark name={mark} />
      <span>{word ?? w.states[state]}</span>
    </span>
  )
}

/** The shape alone, in the margin; its word stands in the text beside it. */
export function StateMark({ state }: { state: StateName }): JSX.Element {
  const { mark, ink } = STATES[state]
  return (
    <span class={`in-margin ${ink}`}>
      <Mark name={mark} />
    </span>
  )
}
