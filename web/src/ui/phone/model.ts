// The phone's live state: cards folded from the store, who I am, what was just done, what was not saved.
import { batch, computed, type ReadonlySignal, type Signal, signal } from '@preact/signals'
import type { MaterialSheet } from '../../core/computations/sheets.ts'
import { type Author, type Entry, NIL_PERSON } from '../../core/entries.ts'
import { fold } from '../../core/fold/index.ts'
import { type Card, cardOf } from '../../core/views/card.ts'
import { withHotRuns } from '../../core/views/hot_runs.ts'
import { inOrder, type JobView, jobViewOf } from '../../core/views/job_view.ts'
import { isHot } from '../../core/views/statuses.ts'
import { StoreFault, type StoreFaultCode } from '../../store/fault.ts'
import type { Shelf } from '../../store/sync_side.ts'
import type { Drafting, JobRow, Person, PhotoPlace, PreparedPhoto, RefusedRow } from '../../store/types.ts'
import { alsoLater } from './later_part.tsx'
import type { PlanShelf } from './plan_shelf.ts'
import type { PhoneServices } from './services.ts'
import { glovePress, inTurn, oncePer } from './turns.ts'
import { rolesOf, sharedAuthor, type Worker, workerSignal } from './worker.ts'

/** What could not be kept: it stays on the screen until it is recorded again or let be. */
export type Unsaved = {
  readonly code: StoreFaultCode
  readonly job: string
  /** How often it was tried: a key whose press changes nothing looks dead. */
  readonly tries: number
  /** undefined where it failed again. */
  readonly retry: () => Promise<unknown>
}

/** The step just done; for 20 s it can be struck from the next act. */
export type JustDone = {
  readonly job: string
  readonly number: number
  readonly hash: string
  readonly until_ms: number
}

export const STRIP_MS = 20_000
const BOUNCE_MS = 400

/** What the page of the changed card says beside it: told with the card, so that both are drawn at once. */
type Shown = (written: readonly Entry[]) => void

export type PhoneModel = {
  readonly services: PhoneServices
  readonly ready: ReadonlySignal<boolean>
  readonly cards: ReadonlySignal<ReadonlyMap<string, Card>>
  readonly jobs: ReadonlySignal<readonly JobView[]>
  readonly rows: ReadonlySignal<ReadonlyMap<string, JobRow>>
  readonly refused: ReadonlySignal<readonly RefusedRow[]>
  readonly people: ReadonlySignal<readonly Person[]>
  /** How many writes were kept since the page was opened. */
  readonly recorded: ReadonlySignal<number>
  readonly unsaved: Signal<Unsaved | undefined>
  readonly justDone: Signal<JustDone | undefined>
  /** Who works now on a shared phone; on a person's own phone nobody asks. */
  readonly worker: Signal<Worker | undefined>
  readonly isShared: () => boolean
  readonly me: () => Author
  readonly record: (
    job: string,
    drafts: readonly Drafting[],
    who?: Author,
    shown?: Shown,
  ) => Promise<readonly Entry[] | undefined>
  readonly recordPhoto: (job: string, photo: PreparedPhoto, place: PhotoPlace) => Promise<Entry | undefined>
  readonly stop: () => void
}

/** Comes after the first record: until then a card is folded whole. */
let grown: typeof import('../../core/fold/grown.ts') | undefined
alsoLater(async () => {
  grown = await import('../../core/fold/grown.ts')
})

export function createModel(services: PhoneServices): PhoneModel {
  const { store, device } = services
  const ready = signal(false)
  const cards = signal<ReadonlyMap<string, Card>>(new Map())
  const rows = signal<ReadonlyMap<string, JobRow>>(new Map())
  const refused = signal<readonly RefusedRow[]>([])
  const people = signal<readonly Person[]>([])
  const recorded = signal(0)
  const unsaved = signal<Unsaved | undefined>(undefined)
  const justDone = signal<JustDone | undefined>(undefined)

  let plans: PlanShelf | undefined

  let rowsRead: readonly JobRow[] = []
  let shelf: unknown
  let sheets: readonly MaterialSheet[] = []
  const untold: (() => void)[] = []
  const tellShown = () => {
    for (const tell of untold.splice(0)) tell()
  }
  const foldingOf = (job: string): typeof fold => {
    const before = cards.value.get(job)?.state
    if (grown === undefined || before === undefined) return fold
    const { foldOnto } = grown
    return (methods, entries) => foldOnto(before, methods, entries)
  }
  const refresh = async (job: string): Promise<void> => {
    const registers = [store.jobs(), store.methods(), store.people(), store.refused()] as const
    const loaded = await Promise.all([...registers, store.setting('shelf')])
    const [jobRows, methods] = loaded
    if (loaded[4] !== shelf) sheets = sheetsOf(loaded[4])
    shelf = loaded[4]
    const wanted = jobRows
      .map((row) => row.job)
      .filter((one) => job === '' || one === job || !cards.value.has(one))
    const fresh = await Promise.all(
      wanted.map(async (one) => {
        const card = cardOf(
          one,
          await store.entries(one),
          methods,
          loaded[2],
          foldingOf(one),
          cards.value.get(one),
        )
        const pinned = plans === undefined ? {} : { plans: plans.get(one) ?? [] }
        return [one, { ...(await withHotRuns({ ...card, ...pinned })), sheets }] as const
      }),
    )
    batch(() => {
      people.value = loaded[2]
      refused.value = loaded[3]
      if (jobRows !== rowsRead) rows.value = new Map(jobRows.map((row) => [row.job, row]))
      rowsRead = jobRows
      const kept = [...cards.value].filter(([one]) => rows.value.has(one))
      cards.value = new Map([...kept, ...fresh])
      ready.value = true
      tellShown()
    })
    if (job === '') void readPlans()
  }
  /** After the first page stands; without its part, on a phone that never fetched it, there is no forecast. */
  const readPlans = async (): Promise<void> => {
    if (plans === undefined && (await store.plans()).length === 0) return
    const read = await import('./plan_shelf.ts').then(
      ({ plansOf }) => plansOf(store),
      () => plans,
    )
    if (read === plans) return
    const isNews = plans !== undefined || (read?.size ?? 0) > 0
    plans = read
    if (isNews) await turns.take('')
  }
  const turns = inTurn(refresh)
  store.onWritten((job, entries) => {
    const before = cards.value.get(job)?.state
    if (before !== undefined) grown?.foldAhead(before, entries)
  })
  const stop = store.onChange((job) => void turns.take(job))
  void turns.take('')

  const worker = workerSignal()
  const isShared = () => store.identity()?.person === NIL_PERSON
  const me = (): Author => {
    if (isShared()) return sharedAuthor(people.value, worker.value)
    const own = store.identity() ?? { person: NIL_PERSON, roles: [], qualifications: [] }
    return { by: own.person, auth: 'own', as: [...rolesOf(own)] }
  }
  /** Runs a write; what fails is kept on the screen, never half kept in the store. */
  const kept = async <T>(
    job: string,
    write: () => Promise<T>,
    shown?: (written: T) => void,
  ): Promise<T | undefined> => {
    try {
      const written = await write()
      if (shown !== undefined) untold.push(() => shown(written)) // before the card that it made is folded
      unsaved.value = undefined
      recorded.value += 1
      device.sound.call('recorded')
      await turns.settled() // the store told of the change before it told the writer
      tellShown()
      return written
    } catch (error) {
      if (!(error instanceof StoreFault)) throw error
      const tries = (unsaved.value?.tries ?? 0) + 1
      unsaved.value = { code: error.code, job, tries, retry: () => kept(job, write, shown) }
      return undefined
    }
  }
  const once = oncePer<readonly Entry[] | undefined>(BOUNCE_MS)
  const stopClock = device.clock.onChanged((change) => {
    const hot = [...cards.value.values()].filter((card) => card.state.runs.some(isHot))
    const nobody: Author = { by: NIL_PERSON, auth: 'own', as: [] }
    for (const { job } of hot)
      void kept(job, () => store.append(job, [{ kind: 'clock', body: change }], nobody))
  })
  return {
    services,
    ready,
    cards,
    rows,
    refused,
    people,
    recorded,
    unsaved,
    justDone,
    worker,
    isShared,
    jobs: computed(() => inOrder([...cards.value.values()].map(jobViewOf))),
    me,
    record: (job, drafts, who = me(), shown) =>
      once(glovePress(job, drafts), () => kept(job, () => store.append(job, drafts, who), shown)),
    recordPhoto: (job, photo, place) => kept(job, () => store.recordPhoto(job, photo, place, me())),
    stop: () => {
      stop()
      stopClock()
    },
  }
}

/** Suppliers' sheets in use, as the newest bundle told them. */
function sheetsOf(shelf: unknown): readonly MaterialSheet[] {
  return typeof shelf === 'string' ? ((JSON.parse(shelf) as Shelf).sheets ?? []) : []
}
