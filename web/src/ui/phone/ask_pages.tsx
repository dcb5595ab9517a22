// The part of the phone that answers asks and runs heat: fetched when first shown.
import type { JSX } from 'preact'
import type { Ask } from '../../core/method.ts'
import { askViewOf } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { runViewOf } from '../../core/views/heat_view.ts'
import { pageWords } from '../words/en_pages.ts'
import { heldWords } from '../words/en_step.ts'
import { AskScreen } from './ask_screen.tsx'
import { PhotoScreen } from './photo_screen.tsx'
import { LostPage } from './plain_pages.tsx'
import { go, goBackOr, paths, type Route } from './router.ts'
import { RunReadings } from './run_readings.tsx'
import { RunScreen } from './run_screen.tsx'
import { SignScreen } from './sign_screen.tsx'

type RunRoute = Extract<Route, { at: 'run' | 'run_readings' }>

type InRunProps = { card: Card; route: RunRoute; reader: boolean }

export function InRun({ card, route, reader }: InRunProps): JSX.Element {
  const view = runViewOf(card, route.run)
  if (view === undefined) return <LostPage what={pageWords.otherRun} up={paths.card(card.job)} comes />
  if (route.at === 'run_readings') return <RunReadings card={card} view={view} />
  return <RunScreen card={card} view={view} reader={reader} onGo={go} />
}

type SignDeviationProps = { card: Card; place: StepPlace; up: string }

export function SignDeviation({ card, place, up }: SignDeviationProps): JSX.Element {
  return (
    <SignScreen
      card={card}
      place={place}
      ask=""
      name={heldWords.signDeviation}
      demand={place.step.hold_countersign}
      otherDevice={false}
      atTheCar={false}
      onDone={() => go(up, 'replace')}
    />
  )
}

type OneAskProps = { card: Card; place: StepPlace; ask: Ask; point: string; up: string; done: string }

export function OneAsk({ card, place, ask, point, up, done }: OneAskProps): JSX.Element {
  return (
    <AskScreen
      key={ask.id}
      card={card}
      place={place}
      ask={ask}
      view={askViewOf(card, place, ask)}
      point={point}
      up={up}
      onDone={() => go(done, 'replace')}
      onGo={go}
    />
  )
}

export { WholeMap } from './tally_screen.tsx'

type LooseProps = { card: Card; position: string; back: string }

/** A photo without a slot; of a position of the fastener map where one is named: then back to where it was asked. */
export function LoosePhoto({ card, position, back }: LooseProps): JSX.Element {
  const loose = card.state.loose_photos
    .flatMap((hash) => card.entries.get(hash) ?? [])
    .filter(({ entry }) => entry.kind === 'photo' && (entry.body.position ?? '') === position)
  return (
    <PhotoScreen
      card={card}
      place={undefined}
      ask={undefined}
      position={position}
      photos={loose}
      back={back}
      onDone={() => (position === '' ? go(back, 'replace') : goBackOr(back))}
    />
  )
}
