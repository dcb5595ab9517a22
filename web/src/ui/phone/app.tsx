// The phone: connects the live state to the screens, and the path to the screen.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { Ask } from '../../core/method.ts'
import { askViewOf } from '../../core/views/answers.ts'
import { askOf, type Card, placeOf, type StepPlace } from '../../core/views/card.ts'
import { runViewOf } from '../../core/views/heat_view.ts'
import { isHot, nextAct } from '../../core/views/statuses.ts'
import { w } from '../words/en.ts'
import { Alarms } from './alarms.tsx'
import { AskScreen } from './ask_screen.tsx'
import { CardEnd } from './card_end.tsx'
import { PhoneContext, usePhone } from './context.ts'
import { HandInScreen } from './hand_in_screen.tsx'
import { JobsScreen } from './jobs_screen.tsx'
import { createModel, type PhoneModel } from './model.ts'
import { PhotoScreen } from './photo_screen.tsx'
import { LoadingPage, LostPage } from './plain_pages.tsx'
import { RecordsScreen } from './records_screen.tsx'
import { go, path, paths, type Route, routeOf, startRouter } from './router.ts'
import { RunReadings } from './run_readings.tsx'
import { RunScreen } from './run_screen.tsx'
import { SelfScreen } from './self_screen.tsx'
import type { PhoneServices } from './services.ts'
import { SignScreen } from './sign_screen.tsx'
import { StepScreen } from './step_screen.tsx'
import { StepsScreen } from './steps_screen.tsx'
import { useTheme } from './theme.ts'
import { StorePage, UnpairedPage, UnsavedPage } from './trouble.tsx'
import { WantedScreen } from './wanted_screen.tsx'
import { StrikeScreen, WriteScreen } from './write_screen.tsx'

/** After a restart in the middle of a photo the phone comes back to its slot. */
async function comeBack({ store }: PhoneServices): Promise<void> {
  const to = await store.setting('return_to')
  if (typeof to === 'string' && to !== '' && path.value === paths.jobs) go(to, 'replace')
}

type Started = { readonly model: PhoneModel; readonly stop: () => void }

function start(services: PhoneServices): Started {
  const stopRouter = startRouter()
  const model = createModel(services)
  void comeBack(services)
  const stop = () => {
    model.stop()
    stopRouter()
  }
  return { model, stop }
}

export function PhoneApp({ services }: { services: PhoneServices }): JSX.Element {
  const [{ model, stop }] = useState(() => start(services))
  useEffect(() => stop, [stop])
  return (
    <PhoneContext.Provider value={model}>
      <Shown />
      <Alarms />
    </PhoneContext.Provider>
  )
}

/** Technicians and the office record; who only photographs sees all and ticks nothing. */
function isReader(roles: readonly string[]): boolean {
  return !roles.includes('technician') && !roles.includes('office')
}

function Shown(): JSX.Element {
  const { services, ready, unsaved, me } = usePhone()
  useTheme()
  const health = services.store.health.value
  const own = services.store.identity()
  if (unsaved.value) return <UnsavedPage />
  if (health === 'lost' || health === 'closed') return <StorePage health={health} />
  if (!ready.value) return <LoadingPage />
  if (own === undefined || own.state === 'key_made' || own.state === 'waiting') return <UnpairedPage />
  return <Routed route={routeOf(path.value)} reader={isReader(me().as)} />
}

function Routed({ route, reader }: { route: Route; reader: boolean }): JSX.Element {
  const { jobs, cards } = usePhone()
  switch (route.at) {
    case 'jobs':
      return <JobsScreen jobs={jobs.value} reader={reader} />
    case 'records':
      return <RecordsScreen job={route.job} />
    case 'hand_in':
      return <HandInScreen />
    case 'self':
      return <SelfScreen hot={[...cards.value.values()].some((card) => card.state.runs.some(isHot))} />
    case 'unknown':
      return <LostPage what={w.phone.pages.notFound} up={paths.jobs} />
    default: {
      const card = cards.value.get(route.job)
      if (card === undefined) return <LostPage what={w.card.otherJob} up={paths.jobs} />
      return <InJob card={card} route={route} reader={reader} />
    }
  }
}

type JobRoute = Extract<Route, { job: string }>

function InJob({ card, route, reader }: { card: Card; route: JobRoute; reader: boolean }): JSX.Element {
  const toCard = () => go(paths.card(card.job))
  switch (route.at) {
    case 'steps':
      return <StepsScreen card={card} />
    case 'wanted':
      return <WantedScreen card={card} reader={reader} />
    case 'photo': {
      const back = reader ? paths.wanted(card.job) : paths.card(card.job)
      const loose = card.state.loose_photos.flatMap((hash) => card.entries.get(hash) ?? [])
      return (
        <PhotoScreen
          card={card}
          place={undefined}
          ask={undefined}
          photos={loose}
          back={back}
          onDone={() => go(back)}
        />
      )
    }
    case 'run':
    case 'run_readings':
      return <InRun card={card} route={route} reader={reader} />
    case 'strike':
      return <StrikeScreen card={card} target={route.target} onDone={toCard} />
    case 'step':
    case 'ask':
    case 'write':
      return <InStep card={card} route={route} reader={reader} />
    default:
      return <NextAct card={card} reader={reader} />
  }
}

type RunRoute = Extract<JobRoute, { at: 'run' | 'run_readings' }>

function InRun({ card, route, reader }: { card: Card; route: RunRoute; reader: boolean }): JSX.Element {
  const view = runViewOf(card, route.run)
  if (view === undefined) return <LostPage what={w.card.otherRun} up={paths.card(card.job)} />
  if (route.at === 'run_readings') return <RunReadings card={card} view={view} onGo={go} />
  return <RunScreen card={card} view={view} reader={reader} onGo={go} />
}

/** The one next act; while its records are being kept the step shown stays what the entries say. */
function NextAct({ card, reader }: { card: Card; reader: boolean }): JSX.Element {
  const next = nextAct(card)
  if (next === undefined) return <CardEnd card={card} />
  return <StepScreen card={card} place={next.place} onGo={go} reader={reader} />
}

type StepRoute = Extract<JobRoute, { at: 'step' | 'ask' | 'write' }>

function InStep({ card, route, reader }: { card: Card; route: StepRoute; reader: boolean }): JSX.Element {
  const place = placeOf(card, route.method, route.step)
  const up = place ? paths.step(card.job, route.method, route.step) : paths.card(card.job)
  if (route.at === 'write' && route.what !== 'sign_deviation') {
    return (
      <WriteScreen card={card} place={place} what={route.what} onDone={() => go(afterWriting(card, place))} />
    )
  }
  if (place === undefined) return <LostPage what={w.card.otherStep} up={paths.card(card.job)} />
  if (route.at === 'step') return <StepScreen card={card} place={place} onGo={go} reader={reader} />
  if (route.at === 'write') return <SignDeviation card={card} place={place} up={up} />
  const ask = askOf(place, route.ask)
  if (ask === undefined) return <LostPage what={w.card.otherStep} up={up} />
  return <OneAsk card={card} place={place} ask={ask} reader={reader} up={up} />
}

function SignDeviation({ card, place, up }: { card: Card; place: StepPlace; up: string }): JSX.Element {
  return (
    <SignScreen
      card={card}
      place={place}
      ask=""
      name={w.card.held.signDeviation}
      demand={place.step.hold_countersign}
      otherDevice={false}
      atTheCar={false}
      onDone={() => go(up)}
    />
  )
}

/** Back to the next act where the words were about the step that is next, else to the step. */
function afterWriting(card: Card, place: StepPlace | undefined): string {
  const next = nextAct(card)?.place
  const isNext =
    place === undefined || (next?.method.id === place.method.id && next.step.id === place.step.id)
  return isNext ? paths.card(card.job) : paths.step(card.job, place.method.id, place.step.id)
}

type OneAskProps = { card: Card; place: StepPlace; ask: Ask; reader: boolean; up: string }

function OneAsk({ card, place, ask, reader, up }: OneAskProps): JSX.Element {
  const done = reader ? paths.wanted(card.job) : afterWriting(card, place)
  return (
    <AskScreen
      key={ask.id}
      card={card}
      place={place}
      ask={ask}
      view={askViewOf(card, place, ask)}
      up={reader ? paths.wanted(card.job) : up}
      onDone={() => go(done)}
      onGo={go}
    />
  )
}
