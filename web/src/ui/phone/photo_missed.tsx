// A photo whose deadline has passed: taken all the same where it can be, else a deviation says why there is none.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { Card } from '../../core/views/card.ts'
import { deviation, note, refOf } from '../../core/views/drafts.ts'
import { aboutMissed, missedTogether, type WantedSlot } from '../../core/views/photo_view.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { RecordKey, useWords } from '../parts/words_form.tsx'
import { w } from '../words/en.ts'
import { photoWords } from '../words/en_photo.ts'
import { capital } from '../words/format.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { go, paths } from './router.ts'

type MissedProps = { card: Card; slot: WantedSlot; back: string; onTake: () => void }

const words = photoWords.missed

export function MissedPhoto(props: MissedProps): JSX.Element {
  const [writing, setWriting] = useState(false)
  if (writing) return <WriteMissed {...props} onBack={() => setWriting(false)} />
  const { card, slot, back, onTake } = props
  return (
    <Frame
      act={`${slot.place.step.id}/${slot.ask.id}/missed`}
      card={card}
      place={slot.place}
      back={back}
      foot={
        <>
          <Key tone="main" mark="camera" onPress={onTake}>
            {words.still}
          </Key>
          <Key tone="dev" mark="deviation" onPress={() => setWriting(true)}>
            {words.deviation}
          </Key>
        </>
      }
    >
      <Leaf>
        <p class="stage">{slot.place.step.title}</p>
        <h1 class="act-small close" tabIndex={-1}>
          {words.title}
        </h1>
        <About slot={slot} />
      </Leaf>
    </Frame>
  )
}

function About({ slot }: { slot: WantedSlot }): JSX.Element {
  const { ask, missed, gone } = slot
  return (
    <>
      <p class="lead">{capital(ask.show || ask.name)}</p>
      {missed && <p>{words.lead(`${w.card.step(missed.number).toLowerCase()}, ${missed.step.title}`)}</p>}
      {gone.map((one) => (
        <p key={one.photo.entry.hash} class="in-stop">
          {photoWords.gone[one.by](one.why)}
        </p>
      ))}
    </>
  )
}

function WriteMissed({ card, slot, back, onBack }: MissedProps & { onBack: () => void }): JSX.Element {
  const { record, me } = usePhone()
  const together = missedTogether(card, slot)
  const names = together.map(({ ask }) => ask.show || ask.name)
  const input = useWords({ label: words.what, start: words.start(names) })
  const may = me().as.some((role) => role === 'technician' || role === 'office')
  const write = async (text: string) => {
    const ref = refOf(slot.place)
    const draft = may ? deviation(ref, text, aboutMissed(card, slot), false) : note(ref, text)
    if (await record(card.job, [draft])) go(may ? back : paths.wanted(card.job), 'replace')
  }
  return (
    <Frame
      act={`${slot.place.step.id}/${slot.ask.id}/missed/write`}
      card={card}
      place={slot.place}
      back={back}
      foot={
        <>
          <RecordKey input={input} onWords={(text) => void write(text)}>
            {may ? words.key : words.tellKey}
          </RecordKey>
          <Key onPress={onBack}>{words.back}</Key>
        </>
      }
    >
      <Leaf>
        <p class="stage">{slot.place.step.title}</p>
        <h1 class="act-small close" tabIndex={-1}>
          {words.deviation}
        </h1>
        <About slot={slot} />
        {together.length > 1 && <p>{words.covers(names)}</p>}
        {!may && <p>{words.tell}</p>}
        {input.field}
      </Leaf>
    </Frame>
  )
}
