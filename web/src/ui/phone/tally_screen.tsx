// Rivets position by position: one picked, the main key is its next state, marks beside it; map and list agree.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { LadderState } from '../../core/entries.ts'
import type { TallyAsk } from '../../core/method.ts'
import type { PositionState } from '../../core/state.ts'
import { tallyMark, tallyState } from '../../core/views/drafts.ts'
import {
  generationFor,
  hasDamage,
  nextPosition,
  nextState,
  openLost,
  PIECES,
  statesTowards,
  tallyOf,
} from '../../core/views/tally_view.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { isRivetName, Mark, RivetMark } from '../parts/mark.tsx'
import { Sheet } from '../parts/sheet.tsx'
import { askWords } from '../words/en_asks.ts'
import { ladder, pieces } from '../words/en_kinds.ts'
import { capital } from '../words/format.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { RivetMap } from './rivet_map.tsx'
import { paths } from './router.ts'
import { TallyCount } from './tally_count.tsx'
import type { AskProps } from './text_screens.tsx'

export function TallyScreen({ card, place, view, ask, onDone }: AskProps<TallyAsk>): JSX.Element | null {
  const { record } = usePhone()
  const { positions } = view
  const tally = tallyOf(positions, ask)
  const first = positions[0]?.position ?? ''
  const [picked, setPicked] = useState(() =>
    nextPosition(positions, positions.at(-1)?.position ?? '', ask.to),
  )
  const [sheet, setSheet] = useState<'' | 'lost' | 'states'>('')
  const at = positions.find((one) => one.position === picked) ?? positions[0]
  const group = place.method.groups.find((one) => one.id === ask.group)
  if (at === undefined) return null
  const write = async (state: LadderState) => {
    setSheet('')
    const generation = generationFor(at, ask.to)
    if (await record(card.job, [tallyState({ position: at.position, generation }, state)])) {
      const after = positions.map((one) => (one === at ? { ...one, generation, state } : one))
      if (state === ask.to) setPicked(nextPosition(after, at.position, ask.to))
    }
  }
  const mark = (draft: ReturnType<typeof tallyMark>) => {
    setSheet('')
    void record(card.job, [draft])
  }
  return (
    <Frame
      act={`${card.job}/${place.step.id}/${ask.id}`}
      card={card}
      place={place}
      back={paths.step(card.job, place.method.id, place.step.id)}
      foot={
        <TallyFoot
          at={at}
          positions={positions}
          to={ask.to}
          onPick={setPicked}
          onState={(state) => void write(state)}
          onMark={mark}
          onSheet={setSheet}
          onDone={onDone}
        />
      }
    >
      <Leaf plain>
        <p class="stage">{place.step.title}</p>
        <h1 class="act-small close" tabIndex={-1}>
          {capital(group?.name ?? ask.name)}
        </h1>
        <RivetMap
          positions={positions}
          picked={at.position || first}
          name={capital(group?.name ?? ask.name)}
          onPick={setPicked}
        />
        <TallyCount tally={tally} />
      </Leaf>
      {sheet === 'lost' && <LostSheet at={at} onMark={mark} onClose={() => setSheet('')} />}
      {sheet === 'states' && (
        <Sheet title={askWords.tally.pickState(at.position)} onClose={() => setSheet('')}>
          <div class="keys">
            {statesTowards(ask.to).map((state) => (
              <Key key={state} class="key-row" onPress={() => void write(state)}>
                {capital(ladder[state])}
              </Key>
            ))}
          </div>
        </Sheet>
      )}
    </Frame>
  )
}

type TallyFootProps = {
  at: PositionState
  positions: readonly PositionState[]
  to: LadderState
  onPick: (position: string) => void
  onState: (state: LadderState) => void
  onMark: (draft: ReturnType<typeof tallyMark>) => void
  onSheet: (sheet: 'lost' | 'states') => void
  onDone: () => void
}

function TallyFoot(props: TallyFootProps): JSX.Element {
  const { at, positions, to, onPick, onMark, onSheet } = props
  const index = positions.indexOf(at)
  const step = (by: number) =>
    onPick(positions[(index + by + positions.length) % positions.length]?.position ?? at.position)
  return (
    <>
      <div class="picked">
        {isRivetName(at.place) && <RivetMark name={at.place} />}
        <p>
          <span class="num">{at.position}</span> <strong>{ladder[at.place]}</strong>
          {at.generation > 1 && <span class="soft"> {askWords.tally.generation(at.generation - 1)}</span>}
        </p>
        <Key onPress={() => step(-1)} label={askWords.tally.previous}>
          <Mark name="back" />
        </Key>
        <Key onPress={() => step(1)} label={askWords.tally.next}>
          <Mark name="onward" />
        </Key>
      </div>
      <NextKey {...props} next={nextState(at, to)} />
      {openLost(at).map((lost) => (
        <Key
          key={lost.hash}
          tone="stop"
          class="foot-wide"
          onPress={() => onMark(tallyMark(at, 'found', '', lost.hash))}
        >
          {askWords.tally.found(capital(lost.piece === '' ? askWords.tally.piece : pieces[lost.piece]))}
        </Key>
      ))}
      <Key
        tone="stop"
        pressed={hasDamage(at) ? true : undefined}
        onPress={() => onMark(tallyMark(at, 'damaged_hole'))}
      >
        {askWords.tally.damaged}
      </Key>
      <Key tone="stop" onPress={() => onSheet('lost')}>
        {askWords.tally.lost}
      </Key>
      <Key onPress={() => onSheet('states')}>{askWords.tally.stateKeys}</Key>
    </>
  )
}

function NextKey(props: TallyFootProps & { next: LadderState | undefined }): JSX.Element {
  const { at, positions, to, next, onPick, onState, onDone } = props
  if (next !== undefined) {
    return (
      <Key tone="main" onPress={() => onState(next)} label={`${at.position}: ${ladder[next]}`}>
        {capital(ladder[next])}
      </Key>
    )
  }
  const open = nextPosition(positions, at.position, to)
  if (open !== at.position) {
    return (
      <Key tone="main" onPress={() => onPick(open)}>
        {askWords.tally.toPosition(open)}
      </Key>
    )
  }
  return (
    <Key tone="main" onPress={onDone} small={askWords.tally.complete}>
      {askWords.tally.backToStep}
    </Key>
  )
}

type LostProps = { at: PositionState; onMark: TallyFootProps['onMark']; onClose: () => void }

function LostSheet({ at, onMark, onClose }: LostProps): JSX.Element {
  return (
    <Sheet title={`${at.position}: ${askWords.tally.lostWhich}`} onClose={onClose}>
      <div class="keys">
        {PIECES.map((piece) => (
          <Key
            key={piece}
            tone="stop"
            class="key-choice"
            onPress={() => onMark(tallyMark(at, 'lost', piece))}
          >
            {capital(pieces[piece])}
          </Key>
        ))}
      </div>
    </Sheet>
  )
}
