// A phone whose clocks are set, that sleeps and dies, in a world that knows the true time.
import { beat, type ClockState, type Reading, startClock } from '../../src/core/run_clock.ts'
import { heardServer } from '../../src/core/run_clock_heard.ts'
import { elapsedOf } from '../../src/core/run_elapsed.ts'

export const NOON_MS = 1_800_000_000_000
export const SERVER_AHEAD_MS = 7_000

/** A phone in a world with true time: its clocks, its page, and the run clock that watches them. */
export class World {
  true_ms = 0
  wall_off_ms = 0
  mono_ms = 500
  load = 'load-1'
  state: ClockState
  changes: { what: string; jump_ms: number }[] = []
  private loads = 1

  constructor() {
    this.state = startClock(undefined, this.read()).state
  }

  read(): Reading {
    return { at_ms: NOON_MS + this.true_ms + this.wall_off_ms, mono_ms: this.mono_ms, load: this.load }
  }

  pass(ms: number, mono_ms = ms) {
    this.true_ms += ms
    this.mono_ms += mono_ms
  }

  /** The page runs and is seen: one beat a second. */
  run(seconds: number) {
    for (let i = 0; i < seconds; i += 1) {
      this.pass(1_000)
      this.beat(false)
    }
  }

  beat(unseen: boolean) {
    const { state, change } = beat(this.state, this.read(), unseen)
    this.state = state
    if (change !== undefined) this.changes.push(change)
  }

  setClock(by_ms: number) {
    this.wall_off_ms += by_ms
  }

  /** Awake for a millisecond at least: a sleep begins after what was read before it, not in the same instant. */
  sleep(ms: number, awake_ms = 1) {
    this.pass(Math.max(ms, awake_ms), awake_ms)
    this.beat(true)
  }

  kill(dead_ms: number, clock_by_ms = 0) {
    this.true_ms += dead_ms
    this.wall_off_ms += clock_by_ms
    this.loads += 1
    this.load = `load-${this.loads}`
    this.mono_ms = 300
    const { state, change } = startClock(this.state, this.read())
    this.state = state
    if (change !== undefined) this.changes.push(change)
  }

  /** `off_ms`: the word came so much late or early, within what its way can hide. */
  sync(off_ms = 0) {
    const server_ms = NOON_MS + this.true_ms + SERVER_AHEAD_MS + off_ms
    this.state = heardServer(this.state, this.read(), server_ms, Math.abs(off_ms))
  }

  elapsed(on: Reading) {
    return elapsedOf(this.state, this.read(), { ...on, own: true })
  }
}

export function started(): { world: World; on: Reading; on_ms: number } {
  const world = new World()
  world.sync()
  world.run(5)
  return { world, on: world.read(), on_ms: world.true_ms }
}
