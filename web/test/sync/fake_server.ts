// A shop server in memory: numbers entries, tells fates, pages, reconciles; and can be put back.
import { setDigest } from '../../src/core/digest.ts'
import { FOLD_VERSION } from '../../src/core/fold/index.ts'
import { Refused } from '../../src/sync/door.ts'
import type { Answer, Transport } from '../../src/sync/types.ts'
import { TransportFault } from '../../src/sync/types.ts'
import type { ReconcileAnswer, SyncAnswer, SyncRequest } from '../../src/sync/wire.ts'

type Held = { hash: string; job: string; device: string; seq: number; text: string }
export type Request = Parameters<Transport['send']>[0]
type Say = { status: number; body: unknown }

export class FakeServer {
  log = 'log-1'
  entries: Held[] = []
  heads: SyncRequest['heads'][number][] = []
  requests: Request[] = []
  reports: unknown[] = []
  cards: unknown[] = []
  pageSize = 2_000
  down = false
  /** Says no to these hashes, or sets them aside. */
  fate = new Map<string, 'refused' | 'set_aside'>()
  /** Answers in place of the next request, or loses its answer after it was acted on. */
  instead: ((request: Request) => Say | undefined) | undefined
  loseNextAnswer = false
  now_ms = 1_800_000_000_000
  jobs: string[] = []
  lie: ((answer: SyncAnswer) => SyncAnswer) | undefined
  photos: string[] = []
  thumbs: string[] = []
  /** Says no to these photos. */
  refusedPhotos = new Set<string>()
  bundle = { version: 'b1', people: [], methods: {}, drawings: {} }

  transport(): Transport {
    return {
      send: async (request) => {
        if (this.down) throw new TransportFault('no answer')
        const json = request.json === undefined ? undefined : JSON.parse(JSON.stringify(request.json))
        this.requests.push({ ...request, json })
        const said = this.instead?.(request) ?? this.answer(request.path, json)
        if (this.loseNextAnswer) {
          this.loseNextAnswer = false
          throw new TransportFault('answer lost')
        }
        return asAnswer(said)
      },
    }
  }

  async upload(sha256: string): Promise<void> {
    if (this.down) throw new TransportFault('no answer')
    if (this.refusedPhotos.has(sha256)) throw new Refused(422, 'not_a_photo', 'no picture')
    this.photos.push(sha256)
  }

  syncs(): SyncRequest[] {
    return this.requests.filter(({ path }) => path === '/api/sync').map(({ json }) => json as SyncRequest)
  }

  copy(): Pick<FakeServer, 'entries'> {
    return { entries: [...this.entries] }
  }

  /** A plain file copy brought back; it takes a new log at its start. */
  putBack(copy: Pick<FakeServer, 'entries'>, log = this.log) {
    this.entries = [...copy.entries]
    this.log = log
  }

  card(device: string): string {
    return JSON.stringify({ v: 1, device })
  }

  receive(text: string) {
    const entry = JSON.parse(text) as Held
    if (this.entries.every(({ hash }) => hash !== entry.hash)) this.entries.push({ ...entry, text })
  }

  private answer(path: string, json: unknown): Say {
    if (path === '/api/sync') return { status: 200, body: this.sync(json as SyncRequest) }
    if (path === '/api/reconcile')
      return { status: 200, body: this.reconcile(json as { job: string; hashes: string[] }) }
    if (path === '/api/bundle') return { status: 200, body: this.bundle }
    if (path.startsWith('/api/thumbs/')) {
      this.thumbs.push(path.slice('/api/thumbs/'.length))
      return { status: 204, body: {} }
    }
    return { status: 404, body: { code: 'not_found', message: path, field: '' } }
  }

  private sync(request: SyncRequest): SyncAnswer {
    const brought = request.entries.map((text) => JSON.parse(text) as Held)
    for (const text of request.entries) {
      if (this.fate.get((JSON.parse(text) as Held).hash) !== 'refused') this.receive(text)
    }
    this.heads.push(...request.heads)
    this.reports.push(...request.reports)
    this.cards.push(...request.cards)
    const same = request.log === '' || request.log === this.log
    const answer: SyncAnswer = {
      ...{
        protocol: 1,
        fold: FOLD_VERSION,
        log: this.log,
        now_ms: this.now_ms,
        bundle: this.bundle.version,
        gone_jobs: [],
        cards: this.authors(),
      },
      fates: brought.map(({ hash }, index) => ({ index, hash, ...this.fateOf(hash) })),
      jobs: this.jobs
        .filter((job) => same || !(job in request.cursors))
        .map((job) => this.job(job, request, brought)),
      new_jobs: this.jobs.filter((job) => !(job in request.cursors)),
    }
    return this.lie?.(answer) ?? answer
  }

  private fateOf(hash: string): Omit<SyncAnswer['fates'][number], 'index' | 'hash'> {
    const fate = this.fate.get(hash) ?? 'taken'
    return { fate, code: fate === 'taken' ? '' : 'broken_body', message: '', field: '' }
  }

  private job(job: string, request: SyncRequest, brought: readonly Held[]) {
    const mine = this.entries.filter((entry) => entry.job === job)
    const from = request.cursors[job] ?? 0
    const page = mine.slice(from, from + this.pageSize)
    const cursor = Math.min(mine.length, from + page.length)
    const fresh = page.filter((entry) => !brought.some(({ hash }) => hash === entry.hash))
    const moved = brought.some((entry) => entry.job === job) || page.length > 0
    return {
      ...{ job, cursor, more: cursor < mine.length, heads: this.headsOf(job) },
      entries: fresh.map(({ text }) => ({ text, received_ms: this.now_ms, offset_ms: 0 })),
      ...(moved ? {} : { set_digest: setDigest(mine.map(({ hash }) => hash)) }),
    }
  }

  /** Cards of the devices that are not phones of the test. */
  private authors() {
    const devices = new Set(
      this.entries.map(({ device }) => device).filter((device) => device.endsWith('ee')),
    )
    return [...devices].map((device) => ({ card: this.card(device), signature: 'seal' }))
  }

  private headsOf(job: string) {
    const newest = new Map<string, Held>()
    for (const entry of this.entries.filter((one) => one.job === job)) {
      if ((newest.get(entry.device)?.seq ?? 0) < entry.seq) newest.set(entry.device, entry)
    }
    return [...newest.values()].map(({ device, seq, hash }) => ({
      device,
      seq,
      hash,
      signature: 'ab'.repeat(64),
    }))
  }

  private reconcile({ job, hashes }: { job: string; hashes: string[] }): ReconcileAnswer {
    const mine = this.entries.filter((entry) => entry.job === job)
    const [here, there] = [new Set(mine.map(({ hash }) => hash)), new Set(hashes)]
    return {
      ...{ log: this.log, heads: this.headsOf(job), cards: [], cursor: mine.length },
      missing_here: hashes.filter((hash) => !here.has(hash)),
      entries: mine
        .filter(({ hash }) => !there.has(hash))
        .map(({ text }) => ({ text, received_ms: this.now_ms })),
      ...{ photos_missing: [], methods_missing: [], drawings_missing: [], set_digest: setDigest(here) },
    }
  }
}

function asAnswer({ status, body }: Say): Answer {
  const bytes = new TextEncoder().encode(JSON.stringify(body)).buffer
  return { status, headers: { get: () => null }, bytes }
}
