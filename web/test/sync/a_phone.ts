// A phone for the sync tests: a store, a sync whose occasions the test makes, and its fake server.
import 'fake-indexeddb/auto'
import type { PhoneStore } from '../../src/store/index.ts'
import { platformReading } from '../../src/store/platform_clock.ts'
import { startSync } from '../../src/sync/index.ts'
import type { Occasion, Occasions } from '../../src/sync/occasions.ts'
import { freshName, pairedStore } from '../store/a_store.ts'
import type { FakeServer } from './fake_server.ts'

export class FakeOccasions implements Occasions {
  due: (occasion: Occasion) => void = () => undefined
  waiting: { then: () => void; ms: number } | undefined

  begin(due: (occasion: Occasion) => void) {
    this.due = due
    return () => undefined
  }
  later(then: () => void, ms: number) {
    const mine = { then, ms }
    this.waiting = mine
    return () => {
      if (this.waiting === mine) this.waiting = undefined
    }
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
  })
  return { store: own, sync, occasions, heard }
}
