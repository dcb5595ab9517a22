// Which office screen an address shows; Back and reload keep the place.
import { type ReadonlySignal, signal } from '@preact/signals'

export type Screen =
  | {
      readonly at: 'board' | 'new' | 'people' | 'devices' | 'methods' | 'handin' | 'filed' | 'log' | 'nowhere'
    }
  | {
      readonly at: 'instruments' | 'lots' | 'materials' | 'api' | 'guide' | 'heat' | 'heat_new'
    }
  | { readonly at: 'job'; readonly job: string }
  | { readonly at: 'method' | 'heat_zone' | 'heat_change'; readonly digest: string }

export const OFFICE = '/office'

const PAGES: { readonly [path: string]: Screen } = {
  '': { at: 'board' },
  new: { at: 'new' },
  people: { at: 'people' },
  devices: { at: 'devices' },
  methods: { at: 'methods' },
  handin: { at: 'handin' },
  filed: { at: 'filed' },
  log: { at: 'log' },
  instruments: { at: 'instruments' },
  lots: { at: 'lots' },
  materials: { at: 'materials' },
  api: { at: 'api' },
  heat: { at: 'heat' },
}

export function screenOf(path: string): Screen {
  const [first = '', second, third] = path.slice(OFFICE.length).split('/').filter(Boolean)
  if (first === 'jobs' && second) return { at: 'job', job: second }
  if (first === 'methods' && second === 'guide') return { at: 'guide' }
  if (first === 'methods' && second) return { at: 'method', digest: second }
  if (first === 'heat' && second === 'new') return { at: 'heat_new' }
  if (first === 'heat' && second)
    return { at: third === 'change' ? 'heat_change' : 'heat_zone', digest: second }
  return (second === undefined && PAGES[first]) || { at: 'nowhere' }
}

export const linkTo = {
  board: OFFICE,
  new: `${OFFICE}/new`,
  people: `${OFFICE}/people`,
  devices: `${OFFICE}/devices`,
  methods: `${OFFICE}/methods`,
  handin: `${OFFICE}/handin`,
  filed: `${OFFICE}/filed`,
  log: `${OFFICE}/log`,
  instruments: `${OFFICE}/instruments`,
  lots: `${OFFICE}/lots`,
  materials: `${OFFICE}/materials`,
  api: `${OFFICE}/api`,
  guide: `${OFFICE}/methods/guide`,
  heat: `${OFFICE}/heat`,
  heat_new: `${OFFICE}/heat/new`,
  heatZone: (digest: string) => `${OFFICE}/heat/${digest}`,
  heatChange: (digest: string) => `${OFFICE}/heat/${digest}/change`,
  job: (job: string) => `${OFFICE}/jobs/${job}`,
  method: (digest: string) => `${OFFICE}/methods/${digest}`,
}

export type Places = {
  readonly path: ReadonlySignal<string>
  go(path: string): void
  stop(): void
}

const isPlain = (click: MouseEvent): boolean =>
  click.button === 0 && !click.metaKey && !click.ctrlKey && !click.shiftKey && !click.altKey

function officeLink(click: MouseEvent): HTMLAnchorElement | undefined {
  const link = (click.target as Element | null)?.closest('a')
  if (link === undefined || link === null) return undefined
  const elsewhere = link.target !== '' || link.hasAttribute('download') || link.hash !== ''
  const inside = link.origin === location.origin && link.pathname.startsWith(OFFICE)
  return inside && !elsewhere ? link : undefined
}

/** Follows links inside the office without a reload, and the browser's Back. */
export function openPlaces(page: Window): Places {
  const path = signal(page.location.pathname)
  // What a page shows is there a frame after its address; only then is there something to scroll.
  const onBack = (event: PopStateEvent): void => {
    const top = (event.state as { top?: number } | null)?.top ?? 0
    path.value = page.location.pathname
    page.requestAnimationFrame(() => page.requestAnimationFrame(() => page.scrollTo(0, top)))
  }
  const go = (to: string): void => {
    page.history.replaceState({ top: page.scrollY }, '')
    if (to !== path.value) page.history.pushState({ top: 0 }, '', to)
    path.value = to
    page.scrollTo(0, 0)
  }
  const onClick = (click: MouseEvent): void => {
    const link = isPlain(click) ? officeLink(click) : undefined
    if (link === undefined) return
    click.preventDefault()
    go(link.pathname)
  }
  page.addEventListener('popstate', onBack)
  page.addEventListener('click', onClick)
  return {
    path,
    go,
    stop() {
      page.removeEventListener('popstate', onBack)
      page.removeEventListener('click', onClick)
    },
  }
}
