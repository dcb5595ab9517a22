// One step as the act that fills the phone: caution, instruction, what it asks for, and the one key.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { type AskView, asksOf } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { standingOf } from '../../core/views/statuses.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { w } from '../words/en.ts'
import { capital } from '../words/format.ts'
import { AskList } from './ask_list.tsx'
import { askVerb } from './ask_words.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { laterPart } from './later_part.tsx'
import { useRest } from './rest_later.ts'
import { paths } from './router.ts'
import { firstOpen, hasOwnChecks, isAnew, useDone } from './step_done.ts'
import { StepBody, StepHead } from './step_text.tsx'
import { RunBand } from './while_hot.tsx'

const parts = () => import('./step_parts.tsx')
const StepDone = laterPart(async () => (await parts()).StepDone)
const MadeElsewhere = laterPart(async () => (await parts()).MadeElsewhere)
const PutOff = laterPart(async () => (await parts()).PutOff)
const StepNeeds = laterPart(async () => (await parts()).StepNeeds)
const TwoBand = laterPart(async () => (await parts()).TwoBand)
const WhoBand = laterPart(async () => (await parts()).WhoBand)
const WrittenHere = laterPart(async () => (await parts()).WrittenHere)
const HeldBand = laterPart(async () => (await import('./held.tsx')).HeldBand)
const HeldFoot = laterPart(async () => (await import('./held.tsx')).HeldFoot)
const JustDoneStrip = laterPart(async () => (await import('./just_done.tsx')).JustDoneStrip)
const MoreSheet = laterPart(async () => (await import('./more_sheet.tsx')).MoreSheet)

type StepProps = { card: Card; place: StepPlace; onGo: (path: string) => void; reader: boolean }

export function StepScreen({ card, place, onGo, reader }: StepProps): JSX.Element {
  const { justDone } = usePhone()
  const standing = standingOf(card, place)
  const held = standing.heldBy !== undefined && place.state.done === ''
  const asks = asksOf(card, place)
  const done = place.state.done !== ''
  const calm = standing.heldBy === place && hasOwnChecks(asks)
  const rest = useRest(done) // what is made is a long page, and its head is what it was opened for
  return (
    <Frame
      act={`${card.job}/${place.method.id}/${place.step.id}`}
      card={card}
      place={place}
      back={paths.jobs}
      foot={
        reader ? (
          <ReaderFoot card={card} />
        ) : held ? (
          <HeldFoot
            card={card}
            place={place}
            hold={standing.heldBy ?? place}
            asks={asks}
            onGo={onGo}
            calm={calm}
          />
        ) : (
          <StepFoot card={card} place={place} asks={asks} onGo={onGo} />
        )
      }
    >
      {justDone.value && <JustDoneStrip card={card} onGo={onGo} />}
      <RunBand card={card} />
      {card.state.findings.some(({ code }) => code === 'two_values') && (
        <TwoBand card={card} step={`${place.method.id}/${place.step.id}`} />
      )}
      <Leaf>
        {!held && place.state.done === '' && <span class="ribbon" />}
        {held && (
          <HeldBand card={card} place={place} hold={standing.heldBy ?? place} asks={asks} calm={calm} />
        )}
        <StepHead place={place} headed={held && !calm} />
        {done && <StepDone card={card} place={place} beforeHold={standing.beforeHold} />}
        {rest && done && <AskList card={card} place={place} asks={asks} reader={reader} />}
        {standing.later && <PutOff card={card} place={place} />}
        {asksForSomebody(place) && <WhoBand card={card} place={place} />}
        {held && !calm && <AskList card={card} place={place} asks={asks} reader={reader} />}
        {rest && <StepBody place={place} />}
        {place.state.needs_open.length > 0 && <StepNeeds card={card} place={place} />}
        {card.state.elsewhere.length > 0 && <MadeElsewhere card={card} place={place} />}
        {(!held || calm) && !done && <AskList card={card} place={place} asks={asks} reader={reader} />}
        {rest && card.state.deviations.length + card.state.notes.length > 0 && (
          <WrittenHere card={card} place={place} />
        )}
      </Leaf>
    </Frame>
  )
}

/** More than one person, or somebody who holds a role or qualification that not every technician has. */
function asksForSomebody({ step }: StepPlace): boolean {
  return step.people > 1 || !step.who.includes('technician')
}

type FootProps = { card: Card; place: StepPlace; asks: readonly AskView[]; onGo: (path: string) => void }

function StepFoot({ card, place, asks, onGo }: FootProps): JSX.Element {
  const [more, setMore] = useState(false)
  const { method, step } = place
  return (
    <>
      {place.state.done === '' ? (
        <MainKey card={card} place={place} asks={asks} onGo={onGo} />
      ) : (
        <AfterDone card={card} place={place} asks={asks} />
      )}
      <KeyLink href={paths.write(card.job, method.id, step.id, 'note')}>{w.card.note}</KeyLink>
      <KeyLink href={paths.steps(card.job)}>{w.card.allSteps}</KeyLink>
      <Key onPress={() => setMore(true)}>{w.card.more}</Key>
      {more && <MoreSheet card={card} place={place} asks={asks} onGo={onGo} onClose={() => setMore(false)} />}
    </>
  )
}

/** On to the next act, once nothing here has to be made anew. */
function AfterDone({ card, place, asks }: Omit<FootProps, 'onGo'>): JSX.Element {
  const ask = asks.find(isAnew)?.ask
  const onward = paths.card(card.job)
  if (ask === undefined) {
    return (
      <KeyLink tone="main" href={onward}>
        {w.card.held.backToCard}
      </KeyLink>
    )
  }
  return (
    <>
      <KeyLink tone="main" href={paths.ask(card.job, place.method.id, place.step.id, ask.id)}>
        {askVerb(ask)}
        <small>{capital(ask.name)}</small>
      </KeyLink>
      <KeyLink class="foot-wide" href={onward}>
        {w.card.held.backToCard}
      </KeyLink>
    </>
  )
}

function MainKey({ card, place, asks, onGo }: FootProps): JSX.Element {
  const done = useDone(card, place)
  const open = firstOpen(asks)
  if (open === undefined || place.state.hold === 'deviation') {
    return (
      <Key tone="main" onPress={() => void done()} small={followWords(asks)}>
        {w.card.done}
      </Key>
    )
  }
  if (open.ask.kind === 'tick') {
    const count = asks.filter((view) => view.open && view.ask.kind === 'tick').length
    return (
      <Key
        tone="main"
        waiting
        onPress={() => document.getElementById(`check-${open.ask.id}`)?.focus()}
        small={w.card.openAsks(count)}
      >
        {w.card.done}
      </Key>
    )
  }
  return (
    <Key
      tone="main"
      onPress={() => onGo(paths.ask(card.job, place.method.id, place.step.id, open.ask.id))}
      small={capital(open.ask.name)}
    >
      {askVerb(open.ask)}
    </Key>
  )
}

/** What may follow after 'Done': a photo, or what a deviation has passed by. */
function followWords(asks: readonly AskView[]): string | undefined {
  const open = asks.filter((view) => view.open)
  if (open.length === 0) return undefined
  return open.every((view) => view.ask.kind === 'photo')
    ? w.card.photoCanFollow
    : w.card.openAsks(open.length)
}

function ReaderFoot({ card }: { card: Card }): JSX.Element {
  return (
    <>
      <KeyLink tone="main" href={paths.wanted(card.job)}>
        {w.phone.wanted.page}
      </KeyLink>
      <KeyLink href={paths.steps(card.job)}>{w.card.allSteps}</KeyLink>
      <KeyLink href={paths.write(card.job, '', '', 'note')}>{w.card.note}</KeyLink>
    </>
  )
}
