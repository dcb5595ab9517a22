// The heartbeat: what a page's clock tells the run clock, the entries and the disk.
import { expect, test } from 'vitest'
import type { ClockState } from '../../src/core/run_clock.ts'
import { elapsedOf, serverTimeOf } from '../../src/core/run_elapsed.ts'
import { type Page, startDeviceClock } from '../../src/device/clock.ts'

class FakePage implements Page {
  at_ms = 1_800_000_000_000
  mono_ms = 1_000
  seen = true
  load = 'load-1'
  private beats: (() => void)[] = []
  private seers: (() => void)[] = []

  read() {
    return { at_ms: this.at_ms, mono_ms: this.mono_ms, load: this.load }
  }
  isSeen() {
    return this.seen
  }
  onSeen(changed: () => void) {
    this.seers.push(changed)
    return () => undefined
  }
  every(beat: () => void) {
    this.beats.push(beat)
    return () => {
      this.beats = []
    }
  }
  pass(ms: number, mono_ms = ms) {
    this.at_ms += ms
    this.mono_ms += mono_ms
  }
  tick(ms = 1_000) {
    this.pass(ms)
    for (const beat of this.beats) beat()
  }
  show(seen: boolean) {
    this.seen = seen
    for (const seer of this.seers) seer()
  }
}

function started(saved?: ClockState) {
  const page = new FakePage()
  const saves: ClockState[] = []
  const clock = startDeviceClock({ saved, save: (state) => saves.push(state), page })
  return { page, clock, saves }
}

test('a clock set between two beats is told once, with how far it jumped', () => {
  const { page, clock } = started()
  const told: unknown[] = []
  clock.onChanged((change) => told.push(change))
  page.tick()
  page.at_ms += 3_600_000
  page.tick()
  page.tick()
  expect(told).toEqual([{ what: 'stepped', jump_ms: 3_600_000 }])
})

test('an entry made right after the clock was set is stamped on the mended line', () => {
  const { page, clock } = started()
  const on = clock.stamp()
  page.pass(400)
  page.at_ms -= 3_600_000
  page.pass(100)
  clock.stamp()
  page.tick(500)
  expect(elapsedOf(clock.state.value, clock.now(), { ...on, own: true })).toEqual({
    elapsed_ms: 1_000,
    doubt: 'none',
  })
})

test('sleep between hiding and return is no changed clock', () => {
  const { page, clock } = started()
  const told: unknown[] = []
  clock.onChanged((change) => told.push(change))
  const on = clock.stamp()
  page.show(false)
  page.pass(1_200_000, 40)
  page.show(true)
  expect(elapsedOf(clock.state.value, clock.now(), { ...on, own: true }).elapsed_ms).toBe(1_200_000)
  page.tick()
  expect(told).toEqual([])
})

test('the last-seen time reaches the disk within two beats', () => {
  const { page, saves } = started()
  page.tick()
  page.tick()
  page.tick()
  expect(saves.at(-1)?.last.at_ms).toBeGreaterThanOrEqual(page.at_ms - 1_000)
})

test('a clock set back while the app was dead is told to the first who listens', () => {
  const first = started()
  first.page.tick()
  const saved = first.clock.state.value
  const page = new FakePage()
  page.load = 'load-2'
  page.at_ms -= 600_000
  const clock = startDeviceClock({ saved, save: () => undefined, page })
  const told: unknown[] = []
  clock.onChanged((change) => told.push(change))
  clock.onChanged((change) => told.push(change))
  expect(told).toEqual([{ what: 'set_back', jump_ms: -601_000 }])
})

test('a clock set just before the server is heard is no word of the server', () => {
  const { page, clock } = started()
  clock.heardServer(clock.now(), 5_000)
  page.tick()
  page.at_ms += 3_600_000
  clock.heardServer(clock.now(), 6_000)
  page.tick()
  expect(serverTimeOf(clock.state.value, clock.now())).toEqual({ server_ms: 7_000, doubt: 'none' })
})
