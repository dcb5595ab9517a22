/** A job in the list: what it is, where it stands, and what it asks for next. */
import { bodyOf, type Card, methodsOf } from './card.ts'
import type { RunView } from './heat_view.ts'
import { isReached, nextAct, progressOf, type StepStanding } from './statuses.ts'

export type JobView = {
  readonly job: string
  readonly order: string
  readonly part: string
  readonly side: 'left' | 'right' | 'none'
  readonly vehicle: string
  readonly vin: string
  readonly place: string
  readonly invented: boolean
  readonly methods: readonly { readonly title: string; readonly revision: string }[]
  readonly closed: boolean
  readonly filed: boolean
  readonly progress: { readonly done: number; readonly all: number }
  readonly next: StepStanding | undefined
  readonly run: RunView | undefined
  /** Counted when it is asked for: only the list of jobs and a card's end show it. */
  readonly wanted: number
  /** By the office's clock; 0 while its opening has not come. */
  readonly opened_ms: number
}

/** A card never changes: what stands on each of its pages is worked out once. */
const VIEWS = new WeakMap<Card, JobView>()

export function jobViewOf(card: Card): JobView {
  const view = VIEWS.get(card) ?? viewOf(card)
  VIEWS.set(card, view)
  return view
}

function viewOf(card: Card): JobView {
  const { job } = card.state
  const open = bodyOf(card, job.open, 'open')
  return {
    job: card.job,
    order: open?.order ?? '',
    part: open?.part ?? '',
    side: open?.side ?? 'none',
    vehicle: open?.vehicle ?? '',
    vin: open?.vin ?? '',
    place: bodyOf(card, job.place, 'place')?.place ?? '',
    invented: open?.invented ?? false,
    methods: methodsOf(card).map(({ title, revision }) => ({ title, revision })),
    closed: job.closed,
    filed: job.filed.length > 0,
    progress: progressOf(card),
    next: nextAct(card),
    run: card.hotRuns[0],
    get wanted() {
      return wantedOf(card)
    },
    opened_ms: card.entries.get(job.open)?.entry.at_ms ?? 0,
  }
}

/** How many slots of steps that the card has come to no photo answers. */
function wantedOf(card: Card): number {
  const { steps, state } = card
  const taken = new Set(
    state.slots.flatMap((one) => (one.photos.length > 0 ? [`${one.method}/${one.step}/${one.slot}`] : [])),
  )
  return steps
    .filter((place) => place.state.done !== 'not_applicable' && isReached(card, place))
    .flatMap(({ method, step, state: { not_asked } }) =>
      step.asks.filter(
        (ask) =>
          ask.kind === 'photo' &&
          !not_asked.includes(ask.id) &&
          !taken.has(`${method.id}/${step.id}/${ask.id}`),
      ),
    ).length
}

/** What is hot first, then as they were opened: an order that a sync does not shuffle. */
export function inOrder(jobs: readonly JobView[]): readonly JobView[] {
  const hot = (job: JobView) => (job.run === undefined ? 1 : 0)
  return [...jobs].sort((a, b) => hot(a) - hot(b) || a.opened_ms - b.opened_ms)
}
