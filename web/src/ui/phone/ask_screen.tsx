// Which screen answers an ask: one for each kind, and the compiler knows that none is missing.
import type { JSX } from 'preact'
import type { Ask } from '../../core/method.ts'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { tick } from '../../core/views/drafts.ts'
import { runViewOf } from '../../core/views/heat_view.ts'
import { isHot } from '../../core/views/statuses.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { w } from '../words/en.ts'
import { pageWords } from '../words/en_pages.ts'
import { BeforeRun, NotBegun } from './before_run.tsx'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { later } from './later.tsx'
import { LotScreen } from './lot_screen.tsx'
import { PhotoScreen } from './photo_screen.tsx'
import { ReadingScreen } from './reading_screen.tsx'
import { paths } from './router.ts'
import { RunScreen } from './run_screen.tsx'
import { SignScreen } from './sign_screen.tsx'
import { TallyScreen } from './tally_screen.tsx'
import { ChoiceScreen, TextScreen } from './text_screens.tsx'

const ComputePage = later(async () => (await import('./compute_page.tsx')).ComputePage)

type AskScreenProps = {
  card: Card
  place: StepPlace
  ask: Ask
  view: AskView
  /** The point of a reading to begin with; empty: the first open one. */
  point: string
  up: string
  onDone: () => void
  onGo: (path: string) => void
}

export function AskScreen(props: AskScreenProps): JSX.Element {
  const { card, place, ask, view, up, onDone, onGo } = props
  const shared = { card, place, view, onDone }
  switch (ask.kind) {
    case 'tick':
      return <TickScreen {...props} />
    case 'text':
      return <TextScreen {...shared} ask={ask} />
    case 'choice':
      return <ChoiceScreen {...shared} ask={ask} />
    case 'reading':
      return <ReadingScreen {...shared} ask={ask} point={props.point} />
    case 'lot':
      return <LotScreen {...shared} ask={ask} />
    case 'tally':
      return <TallyScreen {...shared} ask={ask} onDone={() => onGo(up)} />
    case 'compute':
      return <ComputePage {...shared} ask={ask} />
    case 'photo':
      return (
        <PhotoScreen card={card} place={place} ask={ask} photos={view.photos} back={up} onDone={onDone} />
      )
    case 'heat_run': {
      // One that was aborted leaves the ask open: another may be switched on.
      const going = view.runs.filter((one) => !one.aborted)
      const run = going.find(isHot) ?? going.at(-1)
      const runView = run && runViewOf(card, run.run)
      if (runView) return <RunScreen card={card} view={runView} reader={false} onGo={onGo} />
      if (ask.continues) return <NotBegun card={card} place={place} ask={ask} />
      return <BeforeRun {...shared} ask={ask} onGo={onGo} />
    }
    case 'countersign':
      return (
        <SignScreen
          card={card}
          place={place}
          ask={ask.id}
          name={ask.name}
          demand={ask.of}
          otherDevice={ask.other_device}
          atTheCar={ask.at_the_car}
          onDone={onDone}
        />
      )
  }
}

/** A single check by its address; on the card it is pressed where it stands. */
function TickScreen({ card, place, ask, up, onDone }: AskScreenProps): JSX.Element {
  const { record } = usePhone()
  const write = async () => {
    if (await record(card.job, [tick(card, place, ask.id)])) onDone()
  }
  return (
    <Frame
      act={`${card.job}/${place.step.id}/${ask.id}`}
      card={card}
      place={place}
      back={up}
      foot={
        <Key tone="main" onPress={() => void write()}>
          {w.card.done}
        </Key>
      }
    >
      <Leaf>
        <p class="stage">{place.step.title}</p>
        <h1 class="act close" tabIndex={-1}>
          {ask.name}
        </h1>
        <a class="key key-plain" href={paths.step(card.job, place.method.id, place.step.id)}>
          {pageWords.toCard}
        </a>
      </Leaf>
    </Frame>
  )
}
