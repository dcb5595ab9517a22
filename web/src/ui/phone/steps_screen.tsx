// All steps by method and stage, with where each stands; and only those that are free now, put off, or hold points.
import type { JSX } from 'preact'
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks'
import { bodyOf, type Card } from '../../core/views/card.ts'
import { type Need, needsOf } from '../../core/views/needs_view.ts'
import { nextAct, progressOf, type StepStanding } from '../../core/views/statuses.ts'
import { type ListedStep, type Listing, listedCount, listedSteps } from '../../core/views/steps_view.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateMark, type StateName } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { pageWords } from '../words/en_pages.ts'
import { heldWords, listWords, momentWords } from '../words/en_step.ts'
import { listed } from '../words/format.ts'
import { Frame } from './frame.tsx'
import { paths } from './router.ts'
import { whenIdle } from './when_idle.ts'
import './steps.css'

export function StepsScreen({ card }: { card: Card }): JSX.Element {
  const [listing, setListing] = useState<Listing>('all')
  const { done, all: count } = progressOf(card)
  const methods = listedSteps(card, listing)
  const { here, back } = useHere()
  const { all, isNear } = useDrawn(card, back)
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
        <p class="soft close">{count === 0 ? pageWords.noMethod : pageWords.stepsSummary(done, count)}</p>
        <Filter card={card} listing={listing} onListing={setListing} />
        {methods.length === 0 && <p class="lead">{listWords.noneFree}</p>}
        {methods.map((method) => (
          <section key={method.title}>
            {manyMethods(card) && <h2 class="steps-method">{method.title}</h2>}
            {method.stages.map((stage) => (
              <section key={stage.number} class="steps">
                <h3>
                  {w.card.stage(stage.number, stage.title)}{' '}
                  <span class="label soft">{listWords.stage(stage.done, stage.all)}</span>
                </h3>
                <ol class={back ? '' : 'steps-long'}>
                  {rowsOf(stage.steps, all, isNear).map((row) =>
                    'rows' in row ? (
                      <li
                        key={row.key}
                        style={{ blockSize: `${row.rows * ROW_REM}rem` }}
                        aria-hidden="true"
                      />
                    ) : (
                      <li
                        key={row.standing.place.step.id}
                        class={isNear(row) ? '' : 'steps-far'}
                        ref={row.next ? here : null}
                      >
                        <StepRow card={card} step={row} />
                      </li>
                    ),
                  )}
                </ol>
              </section>
            ))}
          </section>
        ))}
      </Leaf>
    </Frame>
  )
}

/** The list opens where the work is, unless it is come back to: then every row has its height, and stands where it stood. */
function useHere() {
  const here = useRef<HTMLLIElement>(null)
  const [back] = useState(() => Boolean((history.state as { y?: number } | null)?.y))
  useLayoutEffect(() => {
    if (!back) here.current?.scrollIntoView({ block: 'center' })
  }, [back])
  return { here, back }
}

/** The least height of a row, as `steps.css` has it. */
const ROW_REM = 3.875
const ROW_PX = 62

/** The height of rows that are not drawn yet stands in their place, so that no row moves when they come. */
type Gap = { readonly key: string; readonly rows: number }

function rowsOf(
  steps: readonly ListedStep[],
  all: boolean,
  isNear: (step: ListedStep) => boolean,
): readonly (ListedStep | Gap)[] {
  const near = all ? steps : steps.filter(isNear)
  const before = all ? 0 : near[0] === undefined ? 0 : steps.indexOf(near[0])
  const after = steps.length - near.length - before
  return [
    ...(before > 0 ? [{ key: 'before', rows: before }] : []),
    ...near,
    ...(after > 0 ? [{ key: 'after', rows: after }] : []),
  ]
}

/** The rows about the next step come with the page, all others once it is on the screen. */
function useDrawn(card: Card, back: boolean) {
  const [all, setAll] = useState(back)
  useEffect(() => whenIdle(() => setAll(true)), [])
  const [isNear] = useState(() => nearOf(card, innerHeight))
  return { all, isNear }
}

/** A screen of rows about the next step; at an end of the list the screen cannot be about it. */
function nearOf(card: Card, height_px: number): (step: ListedStep) => boolean {
  const reach = Math.ceil(height_px / ROW_PX / 2)
  const next = nextAct(card)?.place.number ?? 1
  const middle = Math.max(1 + reach, Math.min(card.steps.length - reach, next))
  return ({ standing }) => Math.abs(standing.place.number - middle) <= reach
}

function manyMethods(card: Card): boolean {
  return new Set(card.steps.map((place) => place.method)).size > 1
}

type FilterProps = { card: Card; listing: Listing; onListing: (listing: Listing) => void }

function Filter({ card, listing, onListing }: FilterProps): JSX.Element {
  const later = listedCount(card, 'later')
  const keys: readonly (readonly [Listing, string])[] = [
    ['all', listWords.all],
    ['free', listWords.free(listedCount(card, 'free'))],
    ...(later > 0 ? [['later', listWords.later(later)] as const] : []),
    ['holds', listWords.holds],
  ]
  return (
    <fieldset class={keys.length > 3 ? 'steps-filter steps-filter-four' : 'steps-filter'}>
      <legend class="unseen">{listWords.show}</legend>
      {keys.map(([one, words]) => (
        <Key key={one} pressed={listing === one} onPress={() => onListing(one)}>
          {words}
        </Key>
      ))}
    </fieldset>
  )
}

function stateOf({ standing, next, twoSaid }: ListedStep): StateName {
  if (twoSaid) return 'finding'
  if (next || standing.status === 'running') return 'next'
  if (standing.later) return 'later'
  return standing.status
}

function StepRow({ card, step }: { card: Card; step: ListedStep }): JSX.Element {
  const { standing } = step
  const { place } = standing
  const isHold = place.step.hold && place.state.done === ''
  return (
    <a
      class={step.next ? 'step-row in-ruled step-next' : 'step-row in-ruled'}
      href={paths.step(card.job, place.method.id, place.step.id)}
    >
      <StateMark state={stateOf(step)} />
      <span>
        <span class="num">{place.number}</span> {place.step.title}
      </span>
      <small>
        {isHold && <strong class="in-stop">{listWords.holdPoint}, </strong>}
        {rowWords(card, step).join(', ')}
      </small>
    </a>
  )
}

function rowWords(card: Card, { standing, next, twoSaid }: ListedStep): readonly string[] {
  const words = [twoSaid ? listWords.twoSaid : '', statusWords(card, standing, next)]
  if (standing.later) words.push(listWords.putOff(reasonOf(card, standing)))
  if (standing.place.state.hold === 'deviation') words.push(heldWords.passedByDeviation)
  if (standing.beforeHold) words.push(w.card.beforeHold.toLowerCase().replace(/\.$/, ''))
  return words.filter((word) => word !== '')
}

function statusWords(card: Card, { status, place, heldBy, later }: StepStanding, next: boolean): string {
  switch (status) {
    case 'running':
      return w.states.running
    case 'waits':
      return listWords.waitsFor(listed(needsOf(card, place).map(shortNeed)))
    case 'held':
      return heldBy === undefined || heldBy === place ? w.states.held : listWords.heldBy(heldBy.number)
    case 'open':
      return next ? w.states.next : later ? '' : w.states.open
    default:
      return w.states[status]
  }
}

/** 'step 20', or 'step 27: workable'. */
function shortNeed({ place, id, moment }: Need): string {
  const step = place === undefined ? id : w.card.step(place.number).toLowerCase()
  return moment === '' ? step : momentWords.at(step, momentWords.names[moment] ?? moment)
}

function reasonOf(card: Card, { place }: StepStanding): string {
  return bodyOf(card, place.state.later.at(-1) ?? '', 'later')?.reason ?? ''
}
