// Countersigns under their ask: who may sign, who did, and why a signature counts no more.
import type { JSX } from 'preact'
import type { AskView, Sign } from '../../core/views/answers.ts'
import { askOf, type Card, type StepPlace } from '../../core/views/card.ts'
import { changedSince, sawOf, signersOf } from '../../core/views/sign_view.ts'
import { Mark } from '../parts/mark.tsx'
import { describe } from '../words/describe.ts'
import { w } from '../words/en.ts'
import { heldWords, voidWords } from '../words/en_step.ts'
import { usePhone } from './context.ts'
import './made.css'
import { By } from './made_by.tsx'

type SignsProps = { card: Card; place: StepPlace; view: AskView }

export function MadeSigns({ card, place, view }: SignsProps): JSX.Element | null {
  if (view.ask.kind !== 'countersign') return null
  return (
    <>
      {view.open && <MaySign card={card} place={place} view={view} />}
      {view.signs.map((sign) => (
        <div key={sign.known.entry.hash} class={sign.state.counts ? 'made' : 'made made-fault'}>
          <Mark name={sign.state.counts ? 'done' : 'finding'} />
          <span>
            {sign.state.counts ? w.card.signed : <WhyVoid card={card} sign={sign} />}
            {' · '}
            <By card={card} known={sign.known} />
          </span>
        </div>
      ))}
    </>
  )
}

function isSign(place: StepPlace, id: string): boolean {
  const kind = askOf(place, id)?.kind
  return kind === 'countersign' || kind === 'photo'
}

/** Who of the job may sign it, by name; who still records here is not asked to sign it, too. */
function MaySign({ card, place, view }: SignsProps): JSX.Element | null {
  const me = usePhone().me().by
  if (view.ask.kind !== 'countersign') return null
  const signers = signersOf(card, sawOf(card, place, view.ask.id), view.ask.of, me)
  const names = signers.named.map((one) => one.name)
  if (signers.own && place.state.open.every((id) => isSign(place, id))) {
    return <p class="label">{heldWords.youMay}</p>
  }
  return <p class="label">{names.length === 0 ? heldWords.nobodyMay : heldWords.mustSign(names)}</p>
}

/** 'Does not count any more: it saw gap g5: 35.0 mm, now 3.5 mm. It has to be signed anew.' */
export function WhyVoid({ card, sign }: { card: Card; sign: Sign }): JSX.Element {
  const why = sign.state.why === '' ? 'missing' : sign.state.why
  const changed = changedSince(card, sign)
  return (
    <>
      <strong class="in-stop">{voidWords[why]}</strong>
      {changed.map(({ was, now }) => (
        <small key={was.hash} class="made-why">
          {voidWords.saw(describe(card, was))},{' '}
          {now === undefined ? voidWords.nowNothing : voidWords.now(describe(card, now).replace(/^.*: /, ''))}
          .
        </small>
      ))}
      {why !== 'struck' && <small class="made-why">{voidWords.anew}</small>}
    </>
  )
}
