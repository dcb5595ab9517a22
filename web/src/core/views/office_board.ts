/** The board: which jobs are open, what each waits for, and one sentence's worth of figures on top. */

export type WaitingJob = {
  readonly order: string
  readonly closed: boolean
  readonly filed: boolean
  readonly steps_done: number
  readonly steps_total: number
  readonly holds: readonly HeldAt[]
  readonly next?: { readonly title: string }
  readonly free?: { readonly title: string }
  readonly photos_wanted: number
  readonly photos_not_here: number
  readonly set_aside: number
  readonly assigned: readonly string[]
  readonly methods: readonly unknown[]
  readonly runs: readonly { readonly zone: string; readonly on_ms: number }[]
}

export type HeldAt = { readonly title: string; readonly asks: number; readonly of: readonly string[] }

export type Wait =
  | ({ readonly code: 'held' } & HeldAt)
  | { readonly code: 'next' | 'free'; readonly title: string }
  | { readonly code: 'photos_not_here' | 'set_aside' | 'photos_wanted'; readonly count: number }
  | { readonly code: 'method' | 'assign' | 'close' | 'file' }

export type Headline = {
  readonly open: number
  readonly held: number
  readonly toFile: number
  readonly setAside: number
  readonly runs: readonly { readonly order: string; readonly zone: string; readonly on_ms: number }[]
}

const allDone = (job: WaitingJob): boolean => job.steps_total > 0 && job.steps_done === job.steps_total

function mainWait(job: WaitingJob): readonly Wait[] {
  if (job.closed) return [{ code: 'file' }]
  if (job.methods.length === 0) return [{ code: 'method' }]
  if (job.assigned.length === 0) return [{ code: 'assign' }]
  if (job.holds.length > 0) return heldWaits(job)
  if (allDone(job)) return [{ code: 'close' }]
  return job.next ? [{ code: 'next', title: job.next.title }] : []
}

/** What holds it and of whom, then what can go on meanwhile. */
function heldWaits({ holds, free }: WaitingJob): readonly Wait[] {
  const meanwhile: readonly Wait[] = free ? [{ code: 'free', title: free.title }] : []
  return [...holds.map(({ title, asks, of }) => ({ code: 'held' as const, title, asks, of })), ...meanwhile]
}

/** What a job waits for, the weightiest first. */
export function waitsOf(job: WaitingJob): readonly Wait[] {
  const counted: readonly Wait[] = [
    { code: 'set_aside', count: job.set_aside },
    { code: 'photos_wanted', count: job.photos_wanted },
    { code: 'photos_not_here', count: job.photos_not_here },
  ]
  return [...mainWait(job), ...counted.filter((wait) => 'count' in wait && wait.count > 0)]
}

export function headlineOf(jobs: readonly WaitingJob[]): Headline {
  const open = jobs.filter((job) => !job.closed)
  return {
    open: open.length,
    held: open.filter((job) => job.holds.length > 0).length,
    toFile: jobs.filter((job) => job.closed && !job.filed).length,
    setAside: jobs.filter((job) => job.set_aside > 0).length,
    runs: jobs.flatMap((job) => job.runs.map(({ zone, on_ms }) => ({ order: job.order, zone, on_ms }))),
  }
}

/** Orders as people read them: 9 before 10, letters by code. */
export function byOrder(a: { readonly order: string }, b: { readonly order: string }): number {
  const numbers = Number.parseInt(a.order, 10) - Number.parseInt(b.order, 10)
  if (numbers !== 0 && !Number.isNaN(numbers)) return numbers
  return a.order < b.order ? -1 : a.order > b.order ? 1 : 0
}

export type Graduations = readonly {
  readonly done: boolean
  readonly hold: boolean
  readonly here: boolean
  readonly stageStart: boolean
}[]

/** The steel rule of a board row, from its letters: a capital is a hold point, `o` is open. */
export function ruleOf(job: { readonly marks: string; readonly stages: readonly number[] }): Graduations {
  const starts = new Set<number>()
  let before = 0
  for (const steps of job.stages) {
    starts.add(before)
    before += steps
  }
  const here = job.marks.toLowerCase().indexOf('o')
  return [...job.marks].map((mark, at) => ({
    done: mark.toLowerCase() !== 'o',
    hold: mark !== mark.toLowerCase(),
    here: at === here,
    stageStart: starts.has(at),
  }))
}
