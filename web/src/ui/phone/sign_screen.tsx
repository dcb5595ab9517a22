// Countersign: what is seen, who signs, and the PIN of another person on this phone.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { Author } from '../../core/entries.ts'
import { signsOf } from '../../core/views/answers.ts'
import type { Card, Somebody, StepPlace } from '../../core/views/card.ts'
import { countersign } from '../../core/views/drafts.ts'
import { jobViewOf } from '../../core/views/job_view.ts'
import { sawOf, signersOf } from '../../core/views/sign_view.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { askWords } from '../words/en_asks.ts'
import { capital, listed } from '../words/format.ts'
import { doerName, personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { By } from './made_by.tsx'
import { WhyVoid } from './made_signs.tsx'
import { PinEntry } from './pin_entry.tsx'
import { paths } from './router.ts'
import { Seen } from './sign_seen.tsx'
import { rolesOf } from './worker.ts'

type SignProps = {
  card: Card
  place: StepPlace
  /** Empty: of the deviation that passes the hold. */
  ask: string
  name: string
  demand: string
  otherDevice: boolean
  atTheCar: boolean
  onDone: () => void
}

export function SignScreen(props: SignProps): JSX.Element {
  const { card, place, ask, demand, onDone } = props
  const { me, record } = usePhone()
  const saw = sawOf(card, place, ask)
  const signers = signersOf(card, saw, demand, me().by)
  const [who, setWho] = useState<Somebody | undefined>(
    signers.others.length === 1 && !props.otherDevice ? signers.others[0] : undefined,
  )
  const sign = async (author: Author) => {
    if (await record(card.job, [countersign(place, ask, saw)], author)) onDone()
  }
  return (
    <Frame
      act={`${card.job}/${place.step.id}/${ask}/sign`}
      card={card}
      place={place}
      back={paths.step(card.job, place.method.id, place.step.id)}
      foot={
        who ? (
          <>
            <PinEntry
              key={who.id}
              person={who}
              keyWords={askWords.sign.sign(who.name)}
              onKnown={() => void sign({ by: who.id, auth: 'pin', as: rolesOf(who) })}
            />
            <WayBack card={card} place={place} />
          </>
        ) : (
          <>
            {signers.own && (
              <Key tone="main" mark="sign" onPress={() => void sign(me())}>
                {askWords.sign.sign(personName(card, me().by))}
              </Key>
            )}
            <WayBack card={card} place={place} />
          </>
        )
      }
    >
      <Leaf>
        <p class="stage">{place.step.title}</p>
        <h1 class="act close" tabIndex={-1}>
          {askWords.sign.title}
        </h1>
        <p class="lead close">{capital(props.name)}</p>
        <p>
          {askWords.sign.byWhom(doerName(demand))} {props.atTheCar && askWords.sign.atTheCar}{' '}
          {props.otherDevice && askWords.sign.otherDevice}
        </p>
        {signsOf(card, place, ask)
          .filter((one) => !one.state.counts)
          .map((one) => (
            <p key={one.known.entry.hash}>
              <By card={card} known={one.known} />: <WhyVoid card={card} sign={one} />
            </p>
          ))}
        {!signers.own && props.otherDevice && (
          <Elsewhere card={card} place={place} people={signers.named} first />
        )}
        <Seen card={card} place={place} saw={saw} />
        {!signers.own && signers.others.length === 0 && <p class="in-stop">{askWords.sign.nobody}</p>}
        {signers.ownValue && <p>{askWords.sign.own}</p>}
        {signers.others.length > 0 && <Who people={signers.others} who={who} onWho={setWho} />}
        {signers.others.length > 0 && <p class="label soft">{askWords.sign.same}</p>}
        {!signers.own && !props.otherDevice && (
          <Elsewhere card={card} place={place} people={signers.named} first={false} />
        )}
      </Leaf>
    </Frame>
  )
}

/** While somebody else signs on their own phone: how they find it, and how this phone hears of it. */
type ElsewhereProps = { card: Card; place: StepPlace; people: readonly Somebody[]; first: boolean }

function Elsewhere(props: ElsewhereProps): JSX.Element {
  const { services } = usePhone()
  const { card, place, people } = props
  const status = services.sync.status.value
  const names =
    people.length === 0
      ? askWords.sign.somebody
      : listed(
          people.map((one) => one.name),
          'or',
        )
  return (
    <section>
      <h2 class="label-head">{props.first ? askWords.sign.elsewhereFirst : askWords.sign.elsewhere}</h2>
      <p>{askWords.sign.elsewhereHow(names, jobViewOf(card).order, place.number)}</p>
      <p class="soft">
        {status.state === 'offline' ? askWords.sign.elsewhereOffline : askWords.sign.elsewhereHears}
      </p>
    </section>
  )
}

function WayBack({ card, place }: { card: Card; place: StepPlace }): JSX.Element {
  return (
    <KeyLink class="foot-wide" href={paths.step(card.job, place.method.id, place.step.id)}>
      {askWords.sign.notNow}
    </KeyLink>
  )
}

type WhoProps = { people: readonly Somebody[]; who: Somebody | undefined; onWho: (person: Somebody) => void }

function Who({ people, who, onWho }: WhoProps): JSX.Element {
  return (
    <fieldset class="keys">
      <legend class="label-head">{askWords.sign.who}</legend>
      {people.map((person) => (
        <Key
          key={person.id}
          mark="person"
          class="key-row"
          pressed={person.id === who?.id}
          onPress={() => onWho(person)}
        >
          {person.name}
        </Key>
      ))}
    </fieldset>
  )
}
