// Where the phone is: a path of the History API, so that Back and reload keep the place.
import { signal } from '@preact/signals'

export type Route =
  | { readonly at: 'jobs' }
  | { readonly at: 'records'; readonly job: string }
  | { readonly at: 'hand_in' }
  | { readonly at: 'self' }
  | { readonly at: 'calls' }
  | { readonly at: 'who' }
  | { readonly at: 'card' | 'steps' | 'wanted' | 'map' | 'papers'; readonly job: string }
  /** Without a slot; of a position where one is named. */
  | { readonly at: 'photo'; readonly job: string; readonly position: string }
  | { readonly at: 'step'; readonly job: string; readonly method: string; readonly step: string }
  | {
      readonly at: 'ask'
      readonly job: string
      readonly method: string
      readonly step: string
      readonly ask: string
      /** The point of a reading that is typed; empty: the next open one. */
      readonly point: string
    }
  | {
      readonly at: 'write'
      readonly job: string
      readonly method: string
      readonly step: string
      readonly what: WriteWhat
    }
  | { readonly at: 'run'; readonly job: string; readonly run: string }
  | { readonly at: 'run_readings'; readonly job: string; readonly run: string }
  /** About one record: strike it, write a deviation that names it, or put a photo into another slot. */
  | { readonly at: 'strike' | 'deviate' | 'move'; readonly job: string; readonly target: string }
  | { readonly at: 'unknown' }

/** Words that are written about a step, or about the job where method and step are '-'. */
export type WriteWhat = 'note' | 'deviation' | 'not_applicable' | 'later' | 'already_done' | 'sign_deviation'

const WRITES: readonly string[] = [
  'note',
  'deviation',
  'not_applicable',
  'later',
  'already_done',
  'sign_deviation',
]

export const paths = {
  jobs: '/',
  records: (job = '') => (job === '' ? '/records' : `/records/${job}`),
  handIn: '/hand-in',
  self: '/phone',
  calls: '/phone/calls',
  who: '/who',
  card: (job: string) => `/job/${job}`,
  steps: (job: string) => `/job/${job}/steps`,
  wanted: (job: string) => `/job/${job}/wanted`,
  photo: (job: string) => `/job/${job}/photo`,
  photoAt: (job: string, position: string) => `/job/${job}/photo/${position}`,
  map: (job: string) => `/job/${job}/map`,
  papers: (job: string) => `/job/${job}/papers`,
  step: (job: string, method: string, step: string) => `/job/${job}/step/${method}/${step}`,
  ask: (job: string, method: string, step: string, ask: string, point = '') =>
    `/job/${job}/step/${method}/${step}/ask/${ask}${point && `/${point}`}`,
  write: (job: string, method: string, step: string, what: WriteWhat) =>
    `/job/${job}/step/${method || '-'}/${step || '-'}/write/${what}`,
  run: (job: string, run: string) => `/job/${job}/run/${run}`,
  runReadings: (job: string, run: string) => `/job/${job}/run/${run}/readings`,
  strike: (job: string, target: string) => `/job/${job}/strike/${target}`,
  deviate: (job: string, target: string) => `/job/${job}/deviate/${target}`,
  move: (job: string, target: string) => `/job/${job}/move/${target}`,
}

export function routeOf(path: string): Route {
  const [first, job = '', ...rest] = path.split('/').filter((part) => part !== '')
  if (first === undefined) return { at: 'jobs' }
  if (first === 'records') return { at: 'records', job }
  if (first === 'hand-in') return { at: 'hand_in' }
  if (first === 'phone') return { at: job === 'calls' ? 'calls' : 'self' }
  if (first === 'who') return { at: 'who' }
  return first === 'job' && job !== '' ? jobRoute(job, rest) : { at: 'unknown' }
}

function jobRoute(job: string, [what, a = '', b = '', c = '', d = '', e = '']: readonly string[]): Route {
  switch (what) {
    case undefined:
      return { at: 'card', job }
    case 'steps':
    case 'wanted':
    case 'map':
    case 'papers':
      return { at: what, job }
    case 'photo':
      return { at: 'photo', job, position: a }
    case 'step':
      return stepRoute({ job, method: a, step: b }, c, d, e)
    case 'run':
      return b === 'readings' ? { at: 'run_readings', job, run: a } : { at: 'run', job, run: a }
    case 'strike':
    case 'deviate':
    case 'move':
      return { at: what, job, target: a }
    default:
      return { at: 'unknown' }
  }
}

type At = { readonly job: string; readonly method: string; readonly step: string }

function stepRoute(at: At, what: string, id: string, point: string): Route {
  if (what === '') return { at: 'step', ...at }
  if (what === 'ask') return { at: 'ask', ...at, ask: id, point }
  if (what === 'write' && WRITES.includes(id)) {
    const plain = (part: string) => (part === '-' ? '' : part)
    return { at: 'write', job: at.job, method: plain(at.method), step: plain(at.step), what: id as WriteWhat }
  }
  return { at: 'unknown' }
}

/** The path now shown; set by `go`, by links and by Back. */
export const path = signal('/')

/** How far the page is scrolled, as it last said: to ask it would lay it out before it is drawn. */
let scrolled_px = 0

function hearScroll(): void {
  scrolled_px = Math.round(scrollY)
}

function keepScroll(): void {
  if (history.state?.y !== scrolled_px) history.replaceState({ ...history.state, y: scrolled_px }, '')
}

export function go(to: string, how: 'push' | 'replace' = 'push'): void {
  if (how === 'push') {
    keepScroll()
    history.pushState({ y: 0 }, '', to)
  } else history.replaceState({ y: 0 }, '', to)
  path.value = location.pathname
}

/** Back to the page before this one, where the app itself led here; else to this path. */
export function goBackOr(to: string): void {
  if (history.state === null) go(to, 'replace')
  else history.back()
}

/** Puts the page to where it was read, once its content is there; a page come to anew, to its top. */
export function restoreScroll(): void {
  scrollToY((history.state as { y?: number } | null)?.y ?? 0)
}

export function toTop(): void {
  scrollToY(0)
}

function scrollToY(y: number): void {
  if (y === scrolled_px) return
  scrollTo(0, y)
  scrolled_px = y
}

function ownLink(event: MouseEvent): string | undefined {
  const link = (event.target as Element | null)?.closest('a')
  const plain = event.button === 0 && !event.metaKey && !event.ctrlKey && !event.shiftKey && !event.altKey
  if (!link || !plain || event.defaultPrevented || link.target !== '' || link.origin !== location.origin)
    return undefined
  return routeOf(link.pathname).at === 'unknown' || link.hasAttribute('download') ? undefined : link.pathname
}

/** Listens to Back, to links inside the app and to leaving; returns how to stop. */
export function startRouter(): () => void {
  history.scrollRestoration = 'manual'
  path.value = location.pathname
  const back = () => {
    path.value = location.pathname
  }
  const click = (event: MouseEvent) => {
    const to = ownLink(event)
    if (to === undefined) return
    event.preventDefault()
    go(to)
  }
  addEventListener('popstate', back)
  addEventListener('pagehide', keepScroll)
  addEventListener('scroll', hearScroll, { passive: true })
  document.addEventListener('click', click)
  return () => {
    removeEventListener('popstate', back)
    removeEventListener('pagehide', keepScroll)
    removeEventListener('scroll', hearScroll)
    document.removeEventListener('click', click)
  }
}
