// The office in a browser: the door, then the bar and one screen.
import type { JSX, RefObject } from 'preact'
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks'
import type { Desk, DoorState } from '../../office_api/desk.ts'
import type { DeviceRow } from '../../office_api/rows.ts'
import { OfficeSignIn, SignInForm } from '../door/office_sign_in.tsx'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { clockTime } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { signIn } from '../words/sign_in_en.ts'
import { ApiScreen } from './api_page.tsx'
import { BoardScreen } from './board.tsx'
import { DevicesScreen } from './devices.tsx'
import { FiledScreen } from './filed.tsx'
import { HeatChangeScreen, HeatNewScreen, HeatZoneScreen, HeatZonesScreen } from './heat_screens.tsx'
import { InstrumentsScreen } from './instruments.tsx'
import { JobScreen } from './job.tsx'
import { LotsScreen } from './lots.tsx'
import { MaterialsScreen } from './materials.tsx'
import { GuideScreen } from './method_guide.tsx'
import { MethodScreen } from './method_read.tsx'
import { MethodsScreen } from './methods.tsx'
import { NewJobScreen } from './new_job.tsx'
import { OfficeClock } from './office_clock.tsx'
import { OfficeProvider, useFeed } from './office_desk.ts'
import { Empty, Sheet } from './page_parts.tsx'
import { PeopleScreen } from './people.tsx'
import { linkTo, type Places, type Screen, screenOf } from './place.ts'
import { HandInScreen, LogScreen } from './shelf.tsx'

const SHOP_EVERY_MS = 5000
const LOOK_AGAIN_MS = 4000

const BAR = [
  'board',
  'methods',
  'heat',
  'people',
  'devices',
  'instruments',
  'handin',
  'filed',
  'log',
] as const
type Home = (typeof BAR)[number]
/** Under which page of the bar a screen stands. */
const HOME_OF: { readonly [at in Screen['at']]: Home } = {
  board: 'board',
  new: 'board',
  job: 'board',
  nowhere: 'board',
  methods: 'methods',
  method: 'methods',
  guide: 'methods',
  heat: 'heat',
  heat_new: 'heat',
  heat_zone: 'heat',
  heat_change: 'heat',
  people: 'people',
  devices: 'devices',
  instruments: 'instruments',
  lots: 'instruments',
  materials: 'instruments',
  api: 'instruments',
  handin: 'handin',
  filed: 'filed',
  log: 'log',
}

type OfficeProps = { desk: Desk; places: Places }
type DoorIn = Extract<DoorState, { at: 'in' }>

export function OfficeApp({ desk, places }: OfficeProps): JSX.Element {
  const door = desk.door.value
  useEffect(() => {
    void desk.look()
  }, [desk])
  useEffect(() => {
    if (door.at !== 'silent') return undefined
    return desk.beat.after(LOOK_AGAIN_MS, () => void desk.look())
  }, [desk, door])
  const last = useRef<DoorIn | undefined>(undefined)
  const parts = { desk, places }
  if (door.at === 'in') {
    last.current = door
    return <Inside {...parts} door={door} ended={false} />
  }
  if (door.at === 'out' && door.ended && last.current) return <Inside {...parts} door={last.current} ended />
  return <OfficeSignIn door={door} onSignIn={desk.signIn} onLook={() => void desk.look()} />
}

function Inside(props: InsideProps & { ended: boolean }): JSX.Element {
  const { ended, ...inside } = props
  return (
    <>
      <OfficeInside {...inside} />
      {ended && <SignInAgain desk={inside.desk} />}
    </>
  )
}

/** A sign-in that ended lays itself over the page, so that what was typed there stays. */
function SignInAgain({ desk }: { desk: Desk }): JSX.Element {
  return (
    <div class="office o-over">
      <Sheet title={signIn.title} onClose={desk.leave}>
        <p>{signIn.ended}</p>
        <SignInForm onSignIn={desk.signIn} />
      </Sheet>
    </div>
  )
}

type InsideProps = OfficeProps & { door: DoorIn }

function OfficeInside({ desk, places, door }: InsideProps): JSX.Element {
  const people = useFeed(() => desk.watch(desk.api.people, SHOP_EVERY_MS, 'people'), 'people')
  const devices = useFeed(() => desk.watch(desk.api.devices, SHOP_EVERY_MS, 'devices'), 'devices')
  const shop = {
    people: people.seen.value ?? [],
    devices: devices.seen.value ?? [],
    heard: people.seen.value !== undefined && devices.seen.value !== undefined,
  }
  const refreshShop = (): void => {
    people.refresh()
    devices.refresh()
  }
  const screen = screenOf(places.path.value)
  const page = usePageFocus(places.path.value, screen)
  return (
    <OfficeProvider value={{ desk, demo: door.demo, shop, go: places.go, refreshShop }}>
      <OfficeClock beat={desk.beat}>
        <div class="office">
          <OfficeBar
            screen={screen}
            door={door}
            devices={shop.devices}
            heard_ms={devices.seen.heard_ms ?? 0}
            onSignOut={() => void desk.signOut()}
          />
          <main class="o-main" id="page" ref={page} tabIndex={-1}>
            <ScreenOf screen={screen} />
          </main>
        </div>
      </OfficeClock>
    </OfficeProvider>
  )
}

/** Another address is another page: it gets its title, and the focus, so that it is read out. */
function usePageFocus(path: string, screen: Screen): RefObject<HTMLElement | null> {
  const page = useRef<HTMLElement>(null)
  const before = useRef(path)
  // Before the effects of the screen itself, which names itself more closely once it is there.
  useLayoutEffect(() => {
    document.title = `${o.nav[HOME_OF[screen.at]]} · ${w.common.product}`
  }, [path, screen.at])
  useEffect(() => {
    if (before.current !== path) page.current?.focus({ preventScroll: true })
    before.current = path
  }, [path])
  return page
}

function ScreenOf({ screen }: { screen: Screen }): JSX.Element {
  switch (screen.at) {
    case 'board':
      return <BoardScreen />
    case 'new':
      return <NewJobScreen />
    case 'job':
      return <JobScreen key={screen.job} job={screen.job} />
    case 'people':
      return <PeopleScreen />
    case 'devices':
      return <DevicesScreen />
    case 'methods':
      return <MethodsScreen />
    case 'method':
      return <MethodScreen key={screen.digest} digest={screen.digest} />
    case 'heat':
      return <HeatZonesScreen />
    case 'heat_new':
      return <HeatNewScreen />
    case 'heat_zone':
      return <HeatZoneScreen key={screen.digest} digest={screen.digest} />
    case 'heat_change':
      return <HeatChangeScreen key={screen.digest} digest={screen.digest} />
    case 'handin':
      return <HandInScreen />
    case 'filed':
      return <FiledScreen />
    case 'guide':
      return <GuideScreen />
    case 'instruments':
      return <InstrumentsScreen />
    case 'lots':
      return <LotsScreen />
    case 'materials':
      return <MaterialsScreen />
    case 'api':
      return <ApiScreen />
    case 'log':
      return <LogScreen />
    default:
      return (
        <Empty words={o.seen.noPage} next="">
          <a href={linkTo.board}>{o.seen.toBoard}</a>
        </Empty>
      )
  }
}

type BarProps = {
  screen: Screen
  door: DoorIn
  devices: readonly DeviceRow[]
  heard_ms: number
  onSignOut: () => void
}

function OfficeBar({ screen, door, devices, heard_ms, onSignOut }: BarProps): JSX.Element {
  const here = HOME_OF[screen.at]
  const waiting = devices.filter((device) => device.state === 'waiting').length
  return (
    <header class="o-bar">
      <a class="o-skip" href="#page">
        {o.nav.skip}
      </a>
      <span class="o-name">{w.common.product}</span>
      <nav aria-label={o.nav.name}>
        {BAR.map((at) => (
          <a key={at} class="o-tab" href={linkTo[at]} aria-current={at === here ? 'page' : undefined}>
            {o.nav[at]}
          </a>
        ))}
      </nav>
      {waiting > 0 && (
        <a class="o-bar-waiting" href={linkTo.devices}>
          <Mark name="phone" />
          <span>{o.nav.waitingDevices(waiting)}</span>
        </a>
      )}
      <p class="o-bar-who">
        {door.demo && <span>{o.nav.invented} · </span>}
        {heard_ms > 0 && <span>{o.seen.heard(clockTime(heard_ms))} · </span>}
        <span>{o.nav.signedIn(door.name)}</span>
      </p>
      <button type="button" class="o-link" onClick={onSignOut}>
        {o.nav.signOut}
      </button>
    </header>
  )
}
