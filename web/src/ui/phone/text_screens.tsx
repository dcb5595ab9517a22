// Text and choice: large words, one key, and what stops the work opens a deviation.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { ChoiceAsk, ChoiceOption, TextAsk } from '../../core/method.ts'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { choice, deviation, refOf, text } from '../../core/views/drafts.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { RecordKey, useWords } from '../parts/words_form.tsx'
import { w } from '../words/en.ts'
import { pageWords } from '../words/en_pages.ts'
import { capital } from '../words/format.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { InstrumentPicks } from './instrument_picks.tsx'
import { paths } from './router.ts'
import { VinRemarks } from './vin_remarks.tsx'

export type AskProps<A> = { card: Card; place: StepPlace; view: AskView; ask: A; onDone: () => void }

export function frameOf({ card, place, ask }: AskProps<{ id: string }>, more = '') {
  return {
    act: `${card.job}/${place.step.id}/${ask.id}/${more}`,
    card,
    place,
    back: paths.step(card.job, place.method.id, place.step.id),
  }
}

export function AskHead({ place, name }: { place: StepPlace; name: string }): JSX.Element {
  return (
    <>
      <p class="stage">{place.step.title}</p>
      <h1 class="act close" tabIndex={-1}>
        {capital(name)}
      </h1>
    </>
  )
}

export function TextScreen(props: AskProps<TextAsk>): JSX.Element {
  const { card, place, view, ask, onDone } = props
  const { record } = usePhone()
  const before = view.values[0]?.known?.entry
  const start = before?.kind === 'text' ? before.body.value : ''
  const input = useWords({
    label: capital(ask.name),
    start,
    rows: 3,
    missing: pageWords.textEmpty,
    quiet: true,
  })
  const write = async (words: string) => {
    if (await record(card.job, [text(card, place, ask.id, words)])) onDone()
  }
  return (
    <Frame
      {...frameOf(props)}
      foot={
        <RecordKey input={input} onWords={(words) => void write(words)}>
          {pageWords.textKey}
        </RecordKey>
      }
    >
      <Leaf>
        <AskHead place={place} name={ask.name} />
        {ask.of === 'instrument' && <InstrumentPicks typed={input.value} onPick={input.put} />}
        {input.field}
        {ask.of === 'vin' && <VinRemarks typed={input.value} />}
      </Leaf>
    </Frame>
  )
}

export function ChoiceScreen(props: AskProps<ChoiceAsk>): JSX.Element {
  const { card, place, view, ask, onDone } = props
  const { record } = usePhone()
  const [stop, setStop] = useState<ChoiceOption>()
  const shown = view.values[0]?.known?.entry
  const chosen = shown?.kind === 'choice' ? shown.body.option : ''
  if (stop) return <StopReason {...props} option={stop} onBack={() => setStop(undefined)} />
  const pick = async (option: ChoiceOption) => {
    if (option.stop) return setStop(option)
    if (await record(card.job, [choice(card, place, ask, option.id)])) onDone()
  }
  return (
    <Frame {...frameOf(props)}>
      <Leaf>
        <AskHead place={place} name={ask.name} />
        <div class="keys">
          {ask.options.map((option) => (
            <Key
              key={option.id}
              class="key-choice"
              tone={option.stop ? 'stop' : 'plain'}
              pressed={chosen === '' ? undefined : chosen === option.id}
              onPress={() => void pick(option)}
              small={option.stop ? pageWords.choiceStop : undefined}
            >
              {capital(option.name)}
            </Key>
          ))}
        </div>
      </Leaf>
    </Frame>
  )
}

type StopProps = AskProps<ChoiceAsk> & { option: ChoiceOption; onBack: () => void }

/** An option that stops the work is recorded together with the deviation that says why. */
function StopReason(props: StopProps): JSX.Element {
  const { card, place, ask, option, onDone, onBack } = props
  const { record } = usePhone()
  const input = useWords({ label: pageWords.deviationWhat })
  const write = async (words: string) => {
    const drafts = [
      choice(card, place, ask, option.id),
      (made: readonly { hash: string }[]) =>
        deviation(
          refOf(place),
          words,
          made.map((one) => one.hash),
          false,
        ),
    ]
    if (await record(card.job, drafts)) onDone()
  }
  return (
    <Frame
      {...frameOf(props, 'stop')}
      foot={
        <>
          <RecordKey input={input} onWords={(words) => void write(words)}>
            {w.common.record}
          </RecordKey>
          <Key onPress={onBack}>{w.common.back}</Key>
        </>
      }
    >
      <Leaf>
        <AskHead place={place} name={pageWords.choiceStopAsks(option.name)} />
        <StateWord state="deviation" />
        <p>{pageWords.deviationFor(ask.name)}</p>
        {input.field}
      </Leaf>
    </Frame>
  )
}
