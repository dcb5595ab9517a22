// The page of a computation: on a phone that takes its time, first what the answer is waiting for.
import type { JSX } from 'preact'
import type { ComputeAsk } from '../../core/method.ts'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { computeWords } from '../words/en_compute.ts'
import { ComputeScreen } from './compute_screen.tsx'
import { Frame } from './frame.tsx'
import { useSlowFirst } from './slow_first.ts'
import { AskHead, type AskProps, frameOf } from './text_screens.tsx'

export function ComputePage(props: AskProps<ComputeAsk>): JSX.Element {
  return useSlowFirst() ? <BeingWorkedOut {...props} /> : <ComputeScreen {...props} />
}

export function BeingWorkedOut(props: AskProps<ComputeAsk>): JSX.Element {
  return (
    <Frame {...frameOf(props)}>
      <Leaf>
        <AskHead place={props.place} name={props.ask.name} />
        <StateWord state="waits" word={computeWords.working} />
      </Leaf>
    </Frame>
  )
}
