// A computation of a step: the answer in one sentence, its figures, what it rests on, and the one key that records it.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { Answer, Line } from '../../core/computations/shapes.ts'
import type { ComputeAsk } from '../../core/method.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { type ComputeView, computeViewOf, resultDraft, wantsReason } from '../../core/views/compute_view.ts'
import { deviation, refOf } from '../../core/views/drafts.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { useWords } from '../parts/words_form.tsx'
import { computeWords, decisions, refusedWords, sentenceOf } from '../words/en_compute.ts'
import { heatLineWords } from '../words/en_compute_heat.ts'
import { lineWords } from '../words/en_compute_lines.ts'
import { inputName, sourceWords } from '../words/en_compute_names.ts'
import { capital } from '../words/format.ts'
import './compute.css'
import { Figures, GapTable, PieceTable, PointTable } from './compute_figures.tsx'
import { Foot } from './compute_foot.tsx'
import { HoleKeys } from './compute_holes.tsx'
import { InputList, Summary, WaitList } from './compute_inputs.tsx'
import { labelsOf } from './compute_labels.ts'
import { LaidTable, LengthLead } from './compute_laid.tsx'
import { CountLead } from './compute_lead.tsx'
import { useLengths } from './compute_lengths_hook.tsx'
import { RoomSketch } from './compute_room.tsx'
import { FitSketch } from './compute_sketch.tsx'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { useRest } from './rest_later.ts'
import { elapsedSince } from './run_clock_hook.ts'
import { useTaken } from './slow_first.ts'
import { AskHead, type AskProps, frameOf } from './text_screens.tsx'

export function ComputeScreen(props: AskProps<ComputeAsk>): JSX.Element {
  useTaken()
  const { card, place, ask, onDone } = props
  const { record } = usePhone()
  const { view, now_ms } = useView(card, place, ask)
  const [choice, setChoice] = useState('')
  const input = useWords({ label: computeWords.decide })
  const label = labelsOf(place)
  const lengths = useLengths(view, label)
  // What asks something of a person stands whole at once: nothing may move below the question.
  const rest = useRest(view.answer !== undefined && !wantsReason(view)) || view.answer === undefined
  const write = async (reason?: string) => {
    if (lengths.isMissing()) return
    const result = resultDraft(card, place, ask, view, lengths.values)
    const words = [lengths.said || choice, reason].filter(Boolean).join(': ')
    const why = (made: readonly { hash: string }[]) =>
      deviation(
        refOf(place),
        words,
        made.map((one) => one.hash),
        false,
      )
    if (await record(card.job, reason === undefined ? [result] : [result, why])) onDone()
  }
  const foot = <Foot {...{ card, place, view, input, onWrite: write }} chosen={lengths.values} />
  return (
    <Frame {...frameOf(props)} foot={foot}>
      <Leaf>
        <AskHead place={place} name={ask.name} />
        {view.waits.length > 0 && <Waits card={card} view={view} />}
        {view.refusal && (
          <>
            <StateWord state="finding" word={computeWords.refused} />
            <p>
              {computeWords.refusedAt(
                capital(inputName(view.refusal.field)),
                refusedWords(view.refusal.code),
              )}
            </p>
          </>
        )}
        {view.answer && (
          <Answered {...{ card, ask, view, now_ms, label, rest }} answer={view.answer} drawn={lengths.drawn}>
            {wantsReason(view) && (
              <>
                {lengths.choice}
                <Decide answer={view.answer} choice={choice} onChoose={setChoice} />
                {input.field}
              </>
            )}
          </Answered>
        )}
        {rest && view.inputs.length > 0 && (
          <InputList card={card} inputs={view.inputs} waiting={view.waits.length > 0} />
        )}
        {rest && view.answer && <Rules answer={view.answer} />}
      </Leaf>
    </Frame>
  )
}

/** Elapsed time counts by the run clock: it survives reload, sleep and a clock that was set. */
function useView(card: Card, place: StepPlace, ask: ComputeAsk): { view: ComputeView; now_ms: number } {
  const { services } = usePhone()
  const at_ms = (started_ms: number, source: { known: Parameters<typeof elapsedSince>[1] } | undefined) =>
    source === undefined ? started_ms : started_ms + elapsedSince(services, source.known).elapsed_ms
  const view = computeViewOf(card, place, ask, { at_ms })
  return { view, now_ms: services.device.clock.now().at_ms }
}

function Waits({ card, view }: { card: Card; view: ComputeView }): JSX.Element {
  return (
    <>
      <StateWord state="waits" word={computeWords.waits} />
      <WaitList card={card} waits={view.waits} />
      <p class="soft">{computeWords.waitFirst}</p>
    </>
  )
}

/** Those that are about the room of a hole. */
const ROOMS: readonly string[] = ['edge_distance', 'hole_decision']

type AnsweredProps = {
  card: Card
  ask: ComputeAsk
  view: ComputeView
  answer: Answer
  now_ms: number
  label: (id: string) => string
  /** Figures and drawings too, not only what the answer says. */
  rest: boolean
  /** In the place of the figures. */
  drawn: JSX.Element | undefined
  children: JSX.Element | false
}

function Answered(props: AnsweredProps): JSX.Element {
  const { ask, view, answer, now_ms, label } = props
  const order = { stop: 0, ask: 1, note: 2 }
  const lines = [...answer.lines].sort((a, b) => order[a.tone] - order[b.tone])
  return (
    <>
      <p class="compute-answer">{sentenceOf(ask.computation, answer, now_ms, label)}</p>
      <p>
        {answer.verdict === 'none' ? (
          <strong>{computeWords.verdict.none}</strong>
        ) : (
          <StateWord
            state={answer.verdict === 'outside' ? 'finding' : 'done'}
            word={computeWords.verdict[answer.verdict]}
          />
        )}
      </p>
      {view.stale && (
        <StateWord state="finding" word={view.otherSheet ? computeWords.otherSheet : computeWords.stale} />
      )}
      <ul class="compute-lines">
        {lines.map((line, place) => (
          <LineRow key={`${line.code}${place}`} line={line} label={label} />
        ))}
      </ul>
      {props.rest && <Shown {...props} />}
      <p class="compute-first">{computeWords.first}</p>
    </>
  )
}

/** What the answer rests on, in figures and to scale, and what it asks of a person. */
function Shown(props: AnsweredProps): JSX.Element {
  const { card, ask, view, answer, label } = props
  const { question } = view.gathered
  return (
    <>
      {ask.computation === 'tally_reconciliation' && <CountLead card={card} view={view} answer={answer} />}
      {ask.computation === 'best_fit' && <FitSketch question={question} label={label} />}
      {ROOMS.includes(ask.computation) && <RoomSketch question={question} />}
      {ask.computation === 'hole_decision' && <HoleKeys card={card} />}
      {ask.computation === 'pick_list' && (
        <>
          <LengthLead card={card} view={view} answer={answer} />
          <LaidTable answer={answer} />
        </>
      )}
      {props.drawn ?? <Figures answer={answer} label={label} />}
      {ask.computation === 'tally_reconciliation' && <PieceTable answer={answer} />}
      {ask.computation === 'best_fit' && <PointTable answer={answer} label={label} />}
      {ask.computation === 'gap_and_step' && <GapTable question={question} answer={answer} label={label} />}
      {props.children}
    </>
  )
}

function LineRow({ line, label }: { line: Line; label: (id: string) => string }): JSX.Element | null {
  const words = line.code.startsWith('heat_') ? heatLineWords(line) : lineWords(line, label)
  if (words === '') return null
  return (
    <li class={`compute-${line.tone}`}>
      {line.tone === 'note' ? (
        words
      ) : (
        <StateWord state={line.tone === 'stop' ? 'finding' : 'deviation'} word={words} />
      )}
    </li>
  )
}

/** A border case is a question: the choice, then the reason. */
function Decide(props: {
  answer: Answer
  choice: string
  onChoose: (choice: string) => void
}): JSX.Element | null {
  const choices = props.answer.lines.flatMap((line) =>
    line.tone === 'ask' ? (decisions[line.code] ?? []) : [],
  )
  if (choices.length === 0) {
    return props.answer.verdict === 'outside' ? <p>{computeWords.outside}</p> : null
  }
  return (
    <div class="compute-choices">
      {choices.map((one) => (
        <Key key={one} pressed={props.choice === one} onPress={() => props.onChoose(one)}>
          {one}
        </Key>
      ))}
    </div>
  )
}

function Rules({ answer }: { answer: Answer }): JSX.Element {
  return (
    <details class="compute-more">
      <Summary>{computeWords.sources}</Summary>
      <ul class="compute-rules">
        {answer.sources.map((source) => (
          <li key={source}>{sourceWords[source] ?? source}</li>
        ))}
        <li>{computeWords.model(answer.model)}</li>
      </ul>
    </details>
  )
}
