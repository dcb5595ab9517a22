/** The side of the store that the sync uses, on the tables. */
import { type ClockState, steadyOf } from '../core/run_clock.ts'
import type { HeldLink } from '../core/sync_plan.ts'
import type { Connection } from './connection.ts'
import { takeIn } from './intake.ts'
import { keepPaper, paperRows, putPaperList } from './papers.ts'
import { holdsBytes, keepFetched, photoBytes } from './photos.ts'
import type { OutboxEntry, SyncSide } from './sync_side.ts'
import type { FateRow, KeyRow, OutboxRow, Tables, ThumbRow } from './tables.ts'

const CLOCKS_KEPT = 40

/** What the side needs beside the tables: memory to keep in step, and the key that is held in it. */
export type Surroundings = {
  readonly changed: (jobs: Iterable<string>) => void
  readonly key: () => KeyRow | undefined
  readonly saveKey: (row: KeyRow) => Promise<void>
  readonly fates: () => Promise<FateRow[]>
}

export function syncSide({ run, tables: raw }: Connection, around: Surroundings): SyncSide {
  const quiet = <Result>(work: (tables: Tables) => Promise<Result>) => run(work)
  const told = async (work: (tables: Tables) => Promise<unknown>, jobs: readonly string[] = ['']) => {
    await run(work)
    around.changed(jobs)
  }
  return {
    ...readers(quiet),
    ...photoSide(quiet, told),
    takeIn: (intake) =>
      told(
        (tables) => takeIn(tables, intake),
        [
          ...new Set([
            ...intake.pulled.map(({ entry }) => entry.job),
            ...intake.fates.map(({ job }) => job),
            '',
          ]),
        ],
      ),
    setCursor: (job, cursor) => quiet(async (tables) => void (await tables.jobs.update(job, { cursor }))),
    markReconciled: (key) => quiet(async (tables) => void (await tables.reconciled.put({ key }))),
    saveBundle: ({ version, people, methods, papers = [], plans = [], shelf }) =>
      told(async (tables) => {
        const part = plans.length > 0 || (await hasPlans(tables)) ? await import('./plans.ts') : undefined
        return tables.transaction('rw', bundleTables(tables), async () => {
          await tables.people.clear()
          await tables.people.bulkPut([...people])
          await tables.methods.bulkPut(Object.entries(methods).map(([digest, text]) => ({ digest, text })))
          await putPaperList(tables, papers)
          await part?.putPlanList(tables, plans)
          if (shelf) await tables.settings.put({ key: 'shelf', value: JSON.stringify(shelf) })
          await tables.settings.put({ key: 'bundle', value: version })
        })
      }),
    saveDrawing: (drawing) => told((tables) => tables.drawings.put(drawing)),
    papersMissing: () =>
      quiet(async (tables) => [
        ...new Set((await paperRows(tables)).flatMap((row) => (row.here ? [] : [row.sha256]))),
      ]),
    keepPaper: (sha256, bytes) => told((tables) => keepPaper(tables, sha256, bytes)),
    planSetsMissing: () =>
      quiet(async (tables) =>
        (await hasPlans(tables)) ? (await import('./plans.ts')).setsMissing(tables) : [],
      ),
    keepPlanSet: (sha256, bytes) =>
      told(async (tables) => (await import('./plans.ts')).keepSet(tables, sha256, bytes)),
    key: around.key,
    saveKey: around.saveKey,
    fates: around.fates,
    letGo: async (now_ms) => {
      if ((await quiet(filedJobs)) === 0) return
      const { letGo } = await import('./let_go.ts')
      if (await quiet((tables) => letGo(tables, now_ms))) around.changed([''])
    },
    savedClock: () => quiet(newestClock),
    saveClock: (state) => saveClock(raw, state),
  }
}

/** Most jobs have none, and then nobody waits for that part. */
export async function hasPlans(tables: Tables): Promise<boolean> {
  return (await tables.plans.count()) > 0
}

function filedJobs(tables: Tables): Promise<number> {
  return tables.jobs.filter((row) => row.filed_heard_ms > 0).count()
}

function bundleTables({ people, methods, papers, paper_chunks, plans, plan_sets, settings }: Tables) {
  return [people, methods, papers, paper_chunks, plans, plan_sets, settings]
}

type Quiet = <Result>(work: (tables: Tables) => Promise<Result>) => Promise<Result>
type Told = (work: (tables: Tables) => Promise<unknown>) => Promise<void>

function readers(quiet: Quiet) {
  return {
    outbox: (limit: number) => quiet((tables) => outbox(tables, limit)),
    headsOwed: () => quiet((tables) => tables.heads_owed.toArray()),
    signedHeads: (job: string) => quiet((tables) => tables.signed_heads.where('job').equals(job).toArray()),
    cards: (devices: readonly string[]) =>
      quiet(async (tables) => (await tables.cards.bulkGet([...devices])).filter((row) => row !== undefined)),
    entriesByHash: (hashes: readonly string[]) =>
      quiet((tables) =>
        tables.entries
          .where('hash')
          .anyOf([...hashes])
          .sortBy('order'),
      ),
    links: (job: string) => quiet((tables) => links(tables, job)),
    jobs: () => quiet((tables) => tables.jobs.toArray()),
    reconciled: () =>
      quiet(async (tables) => new Set((await tables.reconciled.toCollection().primaryKeys()) as string[])),
    held: () =>
      quiet(async (tables) => ({
        methods: (await tables.methods.toCollection().primaryKeys()) as string[],
        drawings: (await tables.drawings.toCollection().primaryKeys()) as string[],
      })),
    methodText: (digest: string) => quiet(async (tables) => (await tables.methods.get(digest))?.text),
    drawingBytes: (sha256: string) => quiet(async (tables) => (await tables.drawings.get(sha256))?.bytes),
  }
}

function photoSide(quiet: Quiet, told: Told) {
  return {
    photosToSend: () =>
      quiet(async (tables) =>
        (await tables.photos.where('where').equals('phone').toArray()).filter(
          (row) => row.pending.length === 0,
        ),
      ),
    photosHeld: (job: string) =>
      quiet(async (tables) =>
        (await tables.photos.filter((row) => row.job === job).toArray()).map((row) => row.sha256),
      ),
    photoBytes: (sha256: string) => quiet((tables) => photoBytes(tables, sha256)),
    keepFetchedPhoto: (sha256: string, bytes: ArrayBuffer) =>
      told((tables) => keepFetched(tables, sha256, bytes)),
    setUploadUrl: (sha256: string, upload_url: string) =>
      quiet(async (tables) => void (await tables.photos.update(sha256, { upload_url }))),
    markPhoto: (sha256: string, where: 'phone' | 'office') =>
      told((tables) => tables.photos.update(sha256, { where, upload_url: '' })),
    resendPhotos: (photos: readonly string[]) => quiet((tables) => resendPhotos(tables, photos)),
    thumbsToSend: () => quiet((tables) => tables.thumbs.where('where').equals('phone').toArray()),
    resendThumbs: (thumbs: readonly string[]) =>
      quiet(async (tables) => {
        for (const thumb of thumbs) await tables.thumbs.update(thumb, { where: 'phone' })
      }),
    keepThumb: (row: ThumbRow) => told((tables) => tables.thumbs.put(row)),
  }
}

/** A server put back from an older copy: what the lost store said of its backups no longer counts. */
async function resendPhotos(tables: Tables, photos: readonly string[]): Promise<void> {
  for (const sha256 of photos) {
    const row = await tables.photos.get(sha256)
    if (row?.where !== 'office' || !(await holdsBytes(tables, sha256))) continue
    await tables.photos.update(sha256, { where: 'phone', upload_url: '', covered: false })
  }
}

/** Oldest first within each job's chain, which is all the order that the server asks for. */
async function outbox(tables: Tables, limit: number): Promise<OutboxEntry[]> {
  const next = (await tables.outbox.toArray()).sort(byJobAndSeq).slice(0, limit)
  const entries = await tables.entries
    .where('hash')
    .anyOf(next.map((row) => row.hash))
    .toArray()
  const textOf = new Map(entries.map((row) => [row.hash, row.text]))
  return next.flatMap((row) => {
    const text = textOf.get(row.hash)
    return text === undefined ? [] : [{ ...row, text }]
  })
}

function byJobAndSeq(a: OutboxRow, b: OutboxRow): number {
  if (a.job === b.job) return a.seq - b.seq
  return a.job < b.job ? -1 : 1
}

async function links(tables: Tables, job: string): Promise<HeldLink[]> {
  const rows = await tables.entries.where('job').equals(job).toArray()
  const fates = await tables.fates.where('job').equals(job).toArray()
  const refused = new Set(fates.filter((row) => row.fate === 'refused').map((row) => row.hash))
  const waiting = new Set(
    (await tables.outbox.filter((row) => row.job === job).toArray()).map((row) => row.hash),
  )
  return rows
    .filter((row) => !refused.has(row.hash))
    .map(({ device, seq, hash }) => ({ device, seq, hash, waiting: waiting.has(hash) }))
}

/** The state that ran furthest on the steady line: wall times alone may have been set back since. */
async function newestClock(tables: Tables): Promise<ClockState | undefined> {
  const rows = await tables.clocks.toArray()
  const ran = (state: ClockState) => steadyOf(state, state.last)
  const [newest, ...older] = rows.sort((a, b) => ran(b.state) - ran(a.state))
  await tables.clocks.bulkDelete(older.slice(CLOCKS_KEPT).map((row) => row.load))
  return newest?.state
}

/** Each second or two: relaxed, for a last-seen time is only a bound and the disk has better to do. */
function saveClock(tables: Tables, state: ClockState): Promise<void> {
  return new Promise((resolve) => {
    try {
      const transaction = tables.backendDB().transaction(['clocks'], 'readwrite', { durability: 'relaxed' })
      transaction.objectStore('clocks').put({ load: state.last.load, state })
      transaction.oncomplete = () => resolve()
      transaction.onabort = () => resolve()
    } catch {
      resolve() // a store that is closed just now: the next beat writes again
    }
  })
}
