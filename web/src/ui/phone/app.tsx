// The phone: connects the live state to the screens, and the path to the screen.
import { effect } from '@preact/signals'
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { NIL_PERSON, type StepRef } from '../../core/entries.ts'
import { askOf, type Card, placeOf, type StepPlace } from '../../core/views/card.ts'
import { isHot, nextAct } from '../../core/views/statuses.ts'
import { w } from '../words/en.ts'
import { PhoneContext, usePhone } from './context.ts'
import { JobsScreen } from './jobs_screen.tsx'
import { later } from './later.tsx'
import { loadAllParts } from './later_part.tsx'
import { createModel, type PhoneModel } from './model.ts'
import { useMorning } from './morning.ts'
import { LoadingPage, LostPage } from './plain_pages.tsx'
import { go, goBackOr, path, paths, type Route, routeOf, startRouter } from './router.ts'
import type { PhoneServices } from './services.ts'
import { StepScreen } from './step_screen.tsx'
import { useTheme } from './theme.ts'
import { Alarms } from './while_hot.tsx'

const asks = () => import('./ask_pages.tsx')
const others = () => import('./other_pages.tsx')

const InRun = later(async () => (await asks()).InRun)
const OneAsk = later(async () => (await asks()).OneAsk)
const SignDeviation = later(async () => (await asks()).SignDeviation)
const LoosePhoto = later(async () => (await asks()).LoosePhoto)
const WholeMap = later(async () => (await asks()).WholeMap)
const RecordsScreen = later(async () => (await others()).RecordsScreen)
const HandInScreen = later(async () => (await others()).HandInScreen)
const CallsScreen = later(async () => (await others()).CallsScreen)
const SelfScreen = later(async () => (await others()).SelfScreen)
const StepsScreen = later(async () => (await others()).StepsScreen)
const PapersScreen = later(async () => (await others()).PapersScreen)
const WantedScreen = later(async () => (await others()).WantedScreen)
const WriteScreen = later(async () => (await others()).WriteScreen)
const CardEnd = later(async () => (await others()).CardEnd)
const StorePage = later(async () => (await others()).StorePage)
const UnpairedPage = later(async () => (await others()).UnpairedPage)
const UnsavedPage = later(async () => (await others()).UnsavedPage)
const WhoScreen = later(async () => (await others()).WhoScreen)
const StrikeScreen = later(async () => (await others()).StrikeScreen)
const DeviateScreen = later(async () => (await others()).DeviateScreen)
const MoveScreen = later(async () => (await others()).MoveScreen)
const MorningScreen = later(async () => (await others()).MorningScreen)

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
  const stopLoading = effect(() => {
    if (model.recorded.value > 0) setTimeout(loadAllParts) // what was recorded is drawn first
  })
  const stop = () => {
    stopLoading()
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

/** What could not be kept lies over the page that made it, which keeps what was typed. */
function Shown(): JSX.Element {
  const { unsaved } = usePhone()
  return (
    <>
      {unsaved.value && <UnsavedPage />}
      <Below />
    </>
  )
}

function Below(): JSX.Element {
  const { services, ready, me } = usePhone()
  useTheme()
  const health = services.store.health.value
  const own = services.store.identity()
  if (health === 'lost' || health === 'closed') return <StorePage health={health} />
  if (!ready.value) return <LoadingPage />
  if (own === undefined || own.state === 'key_made' || own.state === 'waiting') return <UnpairedPage />
  return <Routed route={routeOf(path.value)} reader={isReader(me().as)} />
}

function Routed({ route, reader }: { route: Route; reader: boolean }): JSX.Element {
  const { jobs, cards, me, isShared } = usePhone()
  const nobodyYet = isShared() && me().by === NIL_PERSON
  if (nobodyYet && (route.at === 'jobs' || 'job' in route)) return <WhoScreen onDone={() => {}} />
  switch (route.at) {
    case 'who':
      return <WhoScreen onDone={() => goBackOr(paths.jobs)} />
    case 'jobs':
      return <JobsScreen jobs={jobs.value} reader={reader} />
    case 'records':
      return <RecordsScreen job={route.job} />
    case 'hand_in':
      return <HandInScreen />
    case 'self':
      return <SelfScreen hot={[...cards.value.values()].some((card) => card.state.runs.some(isHot))} />
    case 'calls':
      return <CallsScreen />
    case 'unknown':
      return <LostPage what={w.phone.pages.notFound} up={paths.jobs} />
    default: {
      const card = cards.value.get(route.job)
      if (card === undefined) return <LostPage what={w.card.otherJob} up={paths.jobs} comes />
      return <InJob card={card} route={route} reader={reader} />
    }
  }
}

type JobRoute = Extract<Route, { job: string }>

function InJob({ card, route, reader }: { card: Card; route: JobRoute; reader: boolean }): JSX.Element {
  const morning = useMorning(card, !reader && (route.at === 'card' || route.at === 'step'))
  if (morning) return <MorningScreen card={card} onDone={morning} />
  switch (route.at) {
    case 'steps':
      return <StepsScreen card={card} />
    case 'wanted':
      return <WantedScreen card={card} reader={reader} />
    case 'papers':
      return <PapersScreen card={card} />
    case 'photo':
      return (
        <LoosePhoto
          card={card}
          position={route.position}
          back={reader ? paths.wanted(card.job) : paths.card(card.job)}
        />
      )
    case 'map':
      if (reader) return <LostPage what={w.card.notForReader} up={paths.wanted(card.job)} />
      return <WholeMap card={card} onDone={() => go(paths.card(card.job), 'replace')} />
    case 'run':
    case 'run_readings':
      return <InRun card={card} route={route} reader={reader} />
    case 'strike':
      return (
        <StrikeScreen
          card={card}
          target={route.target}
          onDone={() => go(afterRecord(card, route), 'replace')}
        />
      )
    case 'deviate':
      return (
        <DeviateScreen
          card={card}
          target={route.target}
          onDone={() => go(afterRecord(card, route), 'replace')}
        />
      )
    case 'move':
      return <MoveScreen card={card} target={route.target} />
    case 'step':
    case 'ask':
    case 'write':
      return <InStep card={card} route={route} reader={reader} />
    default:
      return <NextAct card={card} reader={reader} />
  }
}

/** The one next act; while its records are being kept the step shown stays what the entries say. */
function NextAct({ card, reader }: { card: Card; reader: boolean }): JSX.Element {
  const next = nextAct(card)
  if (next === undefined) return <CardEnd card={card} />
  return <StepScreen card={card} place={next.place} onGo={go} reader={reader} />
}

/** Who only photographs sees every step, attaches photos and writes notes. */
function mayRead(route: StepRoute, place: StepPlace | undefined): boolean {
  if (route.at === 'write') return route.what === 'note'
  return route.at === 'step' || (place !== undefined && askOf(place, route.ask)?.kind === 'photo')
}

type StepRoute = Extract<JobRoute, { at: 'step' | 'ask' | 'write' }>

function InStep({ card, route, reader }: { card: Card; route: StepRoute; reader: boolean }): JSX.Element {
  const place = placeOf(card, route.method, route.step)
  const up = place ? paths.step(card.job, route.method, route.step) : paths.card(card.job)
  if (reader && !mayRead(route, place)) return <LostPage what={w.card.notForReader} up={up} />
  if (route.at === 'write' && route.what !== 'sign_deviation') {
    return (
      <WriteScreen
        card={card}
        place={place}
        what={route.what}
        onDone={() => go(afterWriting(card, place), 'replace')}
      />
    )
  }
  if (place === undefined) return <LostPage what={w.card.otherStep} up={paths.card(card.job)} comes />
  if (route.at === 'step') return <StepScreen card={card} place={place} onGo={go} reader={reader} />
  if (route.at === 'write') return <SignDeviation card={card} place={place} up={up} />
  const ask = askOf(place, route.ask)
  if (ask === undefined) return <LostPage what={w.card.otherStep} up={up} />
  const done = reader ? paths.wanted(card.job) : afterWriting(card, place)
  return (
    <OneAsk
      key={`${place.step.id}/${ask.id}`}
      card={card}
      place={place}
      ask={ask}
      point={route.point}
      up={reader ? paths.wanted(card.job) : up}
      done={done}
    />
  )
}

/** Back to where the record belongs. */
function afterRecord(card: Card, { target }: { target: string }): string {
  const { method = '', step = '' } = (card.entries.get(target)?.entry.body ?? {}) as Partial<StepRef>
  return afterWriting(card, placeOf(card, method, step))
}

/** Back to the next act where the words were about the step that is next, else to the step. */
function afterWriting(card: Card, place: StepPlace | undefined): string {
  const next = nextAct(card)?.place
  const isNext =
    place === undefined || (next?.method.id === place.method.id && next.step.id === place.step.id)
  return isNext ? paths.card(card.job) : paths.step(card.job, place.method.id, place.step.id)
}
