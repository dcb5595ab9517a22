/** One whole sync: exchange until nothing waits and no more comes, then reconcile, bundle and photos. */
import { setDigest } from '../core/digest.ts'
import { type JobHeld, type JobSeen, logPair, type Mismatch, reportOnce, stepFor } from '../core/sync_plan.ts'
import { fetchBundle } from './bundle.ts'
import { Refused } from './door.ts'
import { type Desk, exchange } from './exchange.ts'
import type { Upload } from './photo_upload.ts'
import type { SyncAnswer } from './wire.ts'

const EXCHANGES_MAX = 2_000

/** This phone's state digest of a job, where it can be compared with the server's; else undefined. */
export type StateDigestOf = (job: string, fold: number) => Promise<string | undefined>

export type Round = Desk & { readonly stateDigestOf: StateDigestOf; readonly upload: Upload }

export async function runRound(round: Round): Promise<void> {
  const { store } = round
  let heard = await exchangeAll(round)
  if ((await store.setting('bundle_due')) !== false) await fetchBundle(round, heard.bundle)
  await store.sync.letGo(round.read().at_ms)
  if (await hasPictures(round)) await (await import('./photo_upload.ts')).sendPhotos(round, round.upload)
  // The office was told of photos before they were sent: it is told once more, so that it does not wait for them.
  if ((await store.unsent()).photos < heard.photosTold) heard = await exchangeAll(round)
  const missing = await store.sync.papersMissing()
  if (missing.length > 0) await (await import('./files.ts')).fetchPapers(round, missing)
  const sets = await store.sync.planSetsMissing()
  if (sets.length > 0) await (await import('./files.ts')).fetchPlanSets(round, sets)
  if (heard.update === true) throw new Refused(409, 'update_needed', 'The server speaks a newer protocol.')
}

async function hasPictures({ store }: Round): Promise<boolean> {
  const lists = await Promise.all([store.sync.thumbsToSend(), store.sync.photosToSend()])
  return lists.some((list) => list.length > 0)
}

/** What was heard last, and how many photos this phone had told that it still holds. */
type Heard = { readonly bundle: string; readonly update: boolean; readonly photosTold: number }

async function exchangeAll(round: Round): Promise<Heard> {
  let reports: Mismatch[] = []
  for (let count = 1; ; count += 1) {
    const { photos } = await round.store.unsent()
    const before = await standing(round)
    const answer = await exchange(round, reports)
    reports = await act(round, before, answer)
    const isThrough = reports.length === 0 && !(await goesOn(round, before, answer))
    if (isThrough || count === EXCHANGES_MAX) {
      return { bundle: answer.bundle, update: answer.update === true, photosTold: photos }
    }
  }
}

type Standing = {
  readonly log: string
  readonly cursors: ReadonlyMap<string, number>
  readonly waiting: number
}

async function standing({ store }: Round): Promise<Standing> {
  const jobs = await store.sync.jobs()
  return {
    log: String((await store.setting('log')) ?? ''),
    cursors: new Map(jobs.map(({ job, cursor }) => [job, cursor])),
    waiting: (await store.unsent()).entries,
  }
}

/** Another exchange is due while the server has more, a job is new, or the outbox is getting shorter. */
async function goesOn({ store }: Round, before: Standing, answer: SyncAnswer): Promise<boolean> {
  const isNew = (answer.new_jobs ?? []).some(
    (job) => !before.cursors.has(job) && !answer.jobs.some((seen) => seen.job === job),
  )
  if (isNew || answer.jobs.some((job) => job.more)) return true
  const owed = (await store.sync.headsOwed()).length
  const { entries } = await store.unsent()
  return (entries > 0 && entries < before.waiting) || owed > 0
}

/** Does what the plan says about each job of the answer; returns the mismatches to tell the office. */
async function act(round: Round, before: Standing, answer: SyncAnswer): Promise<Mismatch[]> {
  const { store } = round
  const done = await store.sync.reconciled()
  const log = logPair(before.log, answer.log)
  const reports: Mismatch[] = []
  for (const held of await heldJobs(round, before, answer, log.changed)) {
    const step = stepFor(held, seenOf(answer, held), log, done)
    if (step === undefined) continue
    if (step.step === 'reconcile') reports.push(...(await reconciled(round, step.job)))
    if (step.step === 'report') reports.push(step.report)
    if (step.step === 'compare_state') reports.push(...(await compared(round, step, answer.fold, done)))
    if (step.step !== 'compare_state') await store.sync.markReconciled(step.key)
  }
  if (log.changed) await countAnew(round, answer.log)
  return reports
}

/** A job that was let go is not reconciled: its old cursor means nothing in another log. */
async function countAnew({ store }: Round, log: string): Promise<void> {
  const letGo = (await store.sync.jobs()).filter((row) => row.let_go)
  for (const { job } of letGo) await store.sync.setCursor(job, 0)
  await store.setSetting('log', log)
}

/** Of a job that is gone only the heads are told: enough to see that the server lost what it had. */
function seenOf(answer: SyncAnswer, held: JobHeld): JobSeen {
  const own = answer.jobs.find(({ job }) => job === held.job)
  if (own !== undefined) return own
  const gone = answer.gone_heads?.find(({ job }) => job === held.job)
  return { job: held.job, cursor: gone ? held.cursor : 0, more: false, heads: gone?.heads ?? [] }
}

/** The jobs to compare: those of the answer, and all that this phone holds when another store answers. */
async function heldJobs({ store }: Round, before: Standing, answer: SyncAnswer, all: boolean) {
  const rows = await store.sync.jobs()
  const answered = new Set([...answer.jobs, ...(answer.gone_heads ?? [])].map(({ job }) => job))
  const wanted = rows.filter(({ job, let_go }) => !let_go && (all || answered.has(job)))
  return Promise.all(
    wanted.map(async ({ job, let_go }) => ({
      ...{ job, letGo: let_go, cursor: before.cursors.get(job) ?? 0 },
      links: await store.sync.links(job),
    })),
  )
}

/** Loaded only when two sides differ, which is rare: the first tick must not wait for it. */
async function reconciled(round: Round, job: string): Promise<Mismatch[]> {
  const { reconcile } = await import('./reconcile.ts')
  const left = await reconcile(round, job)
  return left === undefined ? [] : [left]
}

type ComparedStep = { readonly job: string; readonly set_digest: string; readonly state_digest: string }

async function compared(
  round: Round,
  step: ComparedStep,
  fold: number,
  done: ReadonlySet<string>,
): Promise<Mismatch[]> {
  const { job, state_digest: theirs } = step
  const same = `same ${job} ${step.set_digest} ${theirs}`
  if (done.has(same)) return []
  const ours = await round.stateDigestOf(job, fold)
  // What was recorded or pulled meanwhile is in our state and not in theirs: another round compares.
  const links = await round.store.sync.links(job)
  if (ours === undefined || setDigest(links.map(({ hash }) => hash)) !== step.set_digest) return []
  const report = ours === theirs ? undefined : reportOnce({ job, what: 'state', ours, theirs }, done)
  await round.store.sync.markReconciled(report?.step === 'report' ? report.key : same)
  return report?.step === 'report' ? [report.report] : []
}
