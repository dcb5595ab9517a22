// All steps with where each stands, grouped by stage.
import type { JSX } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import type { Card } from '../../core/views/card.ts'
import { nextAct, progressOf, type StepStanding, standingOf } from '../../core/views/statuses.ts'
import { KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateMark, type StateName } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { pageWords } from '../words/en_pages.ts'
import { listed } from '../words/format.ts'
import { Frame } from './frame.tsx'
import { paths } from './router.ts'
import { needWords } from './step_text.tsx'

function stateOf(standing: StepStanding, next: StepStanding | undefined): StateName {
  if (standing.place === next?.place) return 'next'
  return standing.status === 'running' ? 'next' : standing.status
}

export function StepsScreen({ card }: { card: Card }): JSX.Element {
  const next = nextAct(card)
  const { done, all } = progressOf(card)
  const here = useRef<HTMLLIElement>(null)
  useEffect(() => {
    if ((history.state as { y?: number } | null)?.y) return
    here.current?.scrollIntoView({ block: 'center' })
  }, [])
  return (
    <Frame
      act={`${card.job}/steps`}
      card={card}
      back={paths.card(card.job)}
      foot={
        <KeyLink tone="main" href={paths.card(card.job)}>
          {w.card.held.backToCard}
        </KeyLink>
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {pageWords.stepsTitle}
        </h1>
        <p class="soft close">{pageWords.stepsSummary(done, all)}</p>
        <ol class="steps">
          {card.steps.map((place) => {
            const standing = standingOf(card, place)
            return (
              <li key={`${place.method.id}/${place.step.id}`} ref={place === next?.place ? here : null}>
                {place.stage.starts && <h2>{w.card.stage(place.stage.number, place.stage.title)}</h2>}
                <StepRow card={card} standing={standing} state={stateOf(standing, next)} />
              </li>
            )
          })}
        </ol>
      </Leaf>
    </Frame>
  )
}

type RowProps = { card: Card; standing: StepStanding; state: StateName }

function StepRow({ card, standing, state }: RowProps): JSX.Element {
  const { place, status } = standing
  const needs = status === 'waits' ? listed(needWords(card, place)) : ''
  const word = status === 'running' ? w.states.running : w.states[state]
  return (
    <a class="step-row in-ruled" href={paths.step(card.job, place.method.id, place.step.id)}>
      <StateMark state={state} />
      <span>
        <span class="num">{place.number}</span> {place.step.title}
      </span>
      <small>
        {word}
        {place.step.hold && place.state.done === '' && `, ${pageWords.holdPoint}`}
        {place.state.hold === 'deviation' && `, ${w.card.held.passedByDeviation.toLowerCase()}`}
        {standing.beforeHold && `, ${w.card.beforeHold.toLowerCase()}`}
        {needs !== '' && `: ${needs}`}
      </small>
    </a>
  )
}
