// A phone in memory for the screens: store, sync and device that keep nothing and call nobody.
import { signal } from '@preact/signals'
import { NO_PREV, seal, sha256Hex } from '../../src/core/digest.ts'
import type { Author, Draft, Entry } from '../../src/core/entries.ts'
import type { MethodDoc } from '../../src/core/method.ts'
import { startClock } from '../../src/core/run_clock.ts'
import type { CameraView } from '../../src/device/types.ts'
import { StoreFault, type StoreFaultCode } from '../../src/store/fault.ts'
import type {
  Drafting,
  Identity,
  JobRow,
  PaperRow,
  Person,
  PlanRow,
  RefusedRow,
  Store,
  StoredEntry,
  StoreHealth,
} from '../../src/store/types.ts'
import type { SyncHandle, SyncStatus } from '../../src/sync/types.ts'
import type { PhoneServices } from '../../src/ui/phone/services.ts'
import { fakeDevice } from './fake_device.ts'
import { ADA, authorOf, MARA, OSKAR, PIM } from './fake_people.ts'

export const JOB = '10000000-0000-4000-8000-000000000001'
const LOAD = '30000000-0000-4000-8000-000000000001'
const OFFICE_DEVICE = '20000000-0000-4000-8000-0000000000ff'
const PHONE = '20000000-0000-4000-8000-000000000001'
/** A Wednesday morning; every test and picture begins here. */
export const START_MS = Date.UTC(2026, 10, 25, 8, 0, 0)

export type FakePhone = {
  readonly services: PhoneServices
  /** Lets time pass: the heartbeat's state follows. */
  readonly pass: (ms: number) => void
  /** An entry of another device or of the office, as sync would bring it. */
  readonly brought: (draft: Draft, who: Author, device?: string) => Entry
  /** The next writes fail so. */
  readonly breakStore: (code: StoreFaultCode | undefined) => void
  readonly set: {
    readonly status: (change: Partial<SyncStatus>) => void
    readonly health: (health: StoreHealth) => void
    readonly camera: (view: CameraView) => void
    readonly update: (waiting: boolean) => void
    readonly identity: (change: Partial<Identity>) => void
    readonly refused: (rows: readonly RefusedRow[]) => void
  }
  readonly entries: () => readonly StoredEntry[]
}

type Options = {
  person?: Person
  methods?: readonly MethodDoc[]
  jobs?: boolean
  demo?: boolean
  digests?: readonly string[]
  papers?: readonly PaperRow[]
  plans?: readonly PlanRow[]
  /** Response sets as text, by hash. */
  planSets?: { readonly [sha256: string]: string }
  /** SVG texts by hash. */
  drawings?: { readonly [sha256: string]: string }
}

export function fakePhone(options: Options = {}): FakePhone {
  const me = options.person ?? MARA
  const methods = options.methods ?? []
  const digests = options.digests ?? methods.map((method) => sha256Hex(JSON.stringify(method)))
  let now = { at_ms: START_MS, mono_ms: 1_000, load: LOAD }
  let broken: StoreFaultCode | undefined
  let refusedRows: readonly RefusedRow[] = []
  const clockState = signal(startClock(undefined, now).state)
  const kept: StoredEntry[] = []
  const heads = new Map<string, { seq: number; hash: string }>()
  const changed = new Set<(job: string) => void>()
  const settings = new Map<string, string | number | boolean>()
  const health = signal<StoreHealth>('ok')
  const camera = signal<CameraView>('none')
  const waiting = signal(false)
  const status = signal<SyncStatus>({
    state: 'idle',
    onThisPhone: { entries: 0, photos: 0 },
    heard_ms: START_MS - 60_000,
    shopNetwork: true,
    trouble: { code: '', message: '' },
    setAside: 0,
    refused: 0,
    unknownMet: false,
  })
  const identity = signal<Identity>({
    device: PHONE,
    public_key: '04',
    sign: async () => '',
    name: `${me.name.split(' ')[0]}’s phone`,
    state: 'paired',
    check: '',
    person: me.id,
    roles: me.roles,
    qualifications: me.qualifications,
  })

  const write = (draft: Draft, who: Author, device: string, where: 'phone' | 'office'): Entry => {
    const head = heads.get(device) ?? { seq: 0, hash: NO_PREV }
    const envelope = { v: 1, job: JOB, device, seq: head.seq + 1, ...who, ...now, prev: head.hash } as const
    const { entry, text } = seal(draft, envelope)
    heads.set(device, { seq: entry.seq, hash: entry.hash })
    kept.push({ entry, text, where, order: kept.length + 1, ...(where === 'office' ? { offset_ms: 0 } : {}) })
    return entry
  }
  const told = () => {
    for (const one of changed) one(JOB)
  }
  const store: Store = {
    append: async (_job, drafts: readonly Drafting[], who) => {
      if (broken !== undefined) throw new StoreFault(broken)
      const made: Entry[] = []
      for (const one of drafts)
        made.push(write(typeof one === 'function' ? one(made) : one, who, PHONE, 'phone'))
      const { onThisPhone } = status.value
      const entries = onThisPhone.entries + made.length
      status.value = { ...status.value, onThisPhone: { ...onThisPhone, entries } }
      told()
      return made
    },
    recordPhoto: async (job, photo, place, who) => {
      const sha256 = sha256Hex(new Uint8Array(photo.bytes))
      const { type, width, height } = photo
      const body = { sha256, bytes: photo.bytes.byteLength, type, width, height, thumb: sha256, ...place }
      const [entry] = await store.append(job, [{ kind: 'photo', body }], who)
      if (entry === undefined) throw new StoreFault('lost')
      photos.set(sha256, new Blob([photo.bytes], { type }))
      return entry
    },
    entries: async () => kept.map((one) => ({ ...one })),
    refused: async () => refusedRows,
    sawRefused: async () => {},
    jobs: async (): Promise<readonly JobRow[]> =>
      options.jobs === false ? [] : [{ job: JOB, cursor: 0, gone: false, filed_heard_ms: 0, let_go: false }],
    methods: async () => Object.fromEntries(methods.map((method, i) => [digests[i] ?? '', method])),
    people: async () => [MARA, OSKAR, PIM, ADA],
    photo: async (sha) => photos.get(sha),
    thumb: async (sha) => photos.get(sha),
    photoRow: async () => undefined,
    drawing: async (sha) => {
      const svg = options.drawings?.[sha]
      return svg === undefined ? undefined : new Blob([svg], { type: 'image/svg+xml' })
    },
    papers: async () => options.papers ?? [],
    paper: async () => new Blob(['%PDF-1.7'], { type: 'application/pdf' }),
    plans: async () => options.plans ?? [],
    planSet: async (sha) => options.planSets?.[sha],
    identity: () => identity.value,
    unsent: async () => status.value.onThisPhone,
    unsentPhotoBytes: async () => status.value.onThisPhone.photos * 1_480_000,
    setting: async (key) => settings.get(key),
    setSetting: async (key, value) => void settings.set(key, value),
    onWritten: () => {},
    onChange: (fn) => {
      changed.add(fn)
      return () => changed.delete(fn)
    },
    health,
    persisted: signal('granted'),
    useClock: () => {},
    close: () => {},
  }
  const photos = new Map<string, Blob>()
  const sync: SyncHandle = {
    status,
    syncNow: async () => {},
    setShopNetwork: async (on) => {
      status.value = { ...status.value, shopNetwork: on, state: on ? 'idle' : 'offline' }
    },
    handIn: async () => new Blob(['']),
    fetchThumb: async () => undefined,
    fetchPhoto: async () => undefined,
    stop: () => {},
  }
  const device = fakeDevice(() => now, clockState, camera)
  const fake: FakePhone = {
    services: {
      store,
      sync,
      device,
      update: { waiting, letIn: () => {} },
      demo: options.demo ?? true,
      pairingPath: '/',
      startAnew: () => {},
    },
    pass: (ms) => {
      now = { ...now, at_ms: now.at_ms + ms, mono_ms: now.mono_ms + ms }
      clockState.value = { ...clockState.value, last: now }
    },
    brought: (draft, who, from = OFFICE_DEVICE) => {
      const entry = write(draft, who, from, 'office')
      told()
      return entry
    },
    breakStore: (code) => {
      broken = code
    },
    set: {
      status: (change) => {
        status.value = { ...status.value, ...change }
      },
      health: (one) => {
        health.value = one
      },
      camera: (view) => {
        camera.value = view
      },
      update: (one) => {
        waiting.value = one
      },
      identity: (change) => {
        identity.value = { ...identity.value, ...change }
      },
      refused: (rows) => {
        refusedRows = rows
      },
    },
    entries: () => kept,
  }
  if (options.jobs !== false) openJob(fake, digests)
  return fake
}

/** The office opens the job, puts it in bay 2, pins the methods and assigns it. */
function openJob({ brought }: FakePhone, digests: readonly string[]): void {
  const office = authorOf(ADA)
  const vin = 'INV00000000000001'
  const what = {
    vin,
    vehicle: 'Invented delivery van',
    part: 'Bracket half',
    side: 'left' as const,
    invented: true,
  }
  brought({ kind: 'open', body: { order: '214', ...what, over: [] } }, office)
  brought({ kind: 'place', body: { place: 'Bay 2', over: [] } }, office)
  brought({ kind: 'pin', body: { methods: [...digests], over: [] } }, office)
  for (const one of [MARA, OSKAR, PIM]) {
    brought({ kind: 'assign', body: { person: one.id, on: true, over: [] } }, office)
  }
}
