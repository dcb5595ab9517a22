// A phone for the sync tests: a store, a sync whose occasions the test makes, and its fake server.
import 'fake-indexeddb/auto'
import type { PhoneStore } from '../../src/store/index.ts'
import { platformReading } from '../../src/store/platform_clock.ts'
import { startSync } from '../../src/sync/index.ts'
import type { Occasion, Occasions } from '../../src/sync/occasions.ts'
import { freshName, pairedStore } from '../store/a_store.ts'
import type { FakeServer } from './fake_server.ts'

type Later = { readonly then: () => void; readonly ms: number }

/** After a change it is counted after 80 ms and synced after 300; every other wait is a retry. */
const COUNT_MS = 80
const LOOK_MS = 300
const AFTER_CHANGE_MS: readonly number[] = [COUNT_MS, LOOK_MS]

export class FakeOccasions implements Occasions {
  due: (occasion: Occasion) => void = () => undefined
  private waiting: Later[] = []

  begin(due: (occasion: Occasion) => void) {
    this.due = due
    return () => undefined
  }
  later(then: () => void, ms: number) {
    const mine = { then, ms }
    this.waiting.push(mine)
    return () => {
      this.waiting = this.waiting.filter((one) => one !== mine)
    }
  }
  retryMs(): number | undefined {
    return this.waiting.find(({ ms }) => !AFTER_CHANGE_MS.includes(ms))?.ms
  }
  /** Lets 300 ms pass; how many looks there were. */
  look() {
    const passed = this.waiting.filter(({ ms }) => AFTER_CHANGE_MS.includes(ms)).sort((a, b) => a.ms - b.ms)
    this.waiting = this.waiting.filter((one) => !passed.includes(one))
    for (const { then } of passed) then()
    return passed.filter(({ ms }) => ms === LOOK_MS).length
  }
}

export async function phoneAt(server: FakeServer, device?: string, store?: PhoneStore) {
  const own = store ?? (await pairedStore(freshName()))
  const key = own.sync.key()
  if (device !== undefined && key !== undefined) await own.sync.saveKey({ ...key, device })
  const occasions = new FakeOccasions()
  const heard: number[] = []
  const sync = startSync(own, server.transport(), {
    name: 'test',
    read: platformReading,
    heardServer: (_at, server_ms) => heard.push(server_ms),
    occasions,
    alone: async (work) => work().then(() => true),
    chance: () => 0,
    upload: (_desk, row) => server.upload(row.sha256),
  })
  return { store: own, sync, occasions, heard }
}
