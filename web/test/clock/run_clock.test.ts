// The run clock against people who set clocks, phones that sleep and pages that die.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { steadyOf } from '../../src/core/run_clock.ts'
import { elapsedOf, serverTimeOf } from '../../src/core/run_elapsed.ts'
import { NOON_MS, SERVER_AHEAD_MS, started, World } from './a_world.ts'

const HOUR_MS = 3_600_000

test('after a kill with the clock untouched the time is right', () => {
  const { world, on, on_ms } = started()
  world.run(30)
  world.kill(90_000)
  world.run(3)
  const { elapsed_ms, doubt } = world.elapsed(on)
  expect(Math.abs(elapsed_ms - (world.true_ms - on_ms))).toBeLessThan(1_000)
  expect(doubt).toBe('wall_only')
})

test.each([HOUR_MS, -HOUR_MS])(
  'a wall clock stepped by %i ms while open is followed by nobody and recorded',
  (by) => {
    const { world, on, on_ms } = started()
    world.run(30)
    world.setClock(by)
    world.run(30)
    const { elapsed_ms, doubt } = world.elapsed(on)
    expect(Math.abs(elapsed_ms - (world.true_ms - on_ms))).toBeLessThan(1_000)
    expect(doubt).toBe('none')
    expect(world.changes).toEqual([{ what: 'stepped', jump_ms: by }])
  },
)

test('twenty minutes of sleep while hidden are counted, and said to rest on the wall clock', () => {
  const { world, on, on_ms } = started()
  world.sleep(20 * 60_000)
  world.run(3)
  const { elapsed_ms, doubt } = world.elapsed(on)
  expect(elapsed_ms).toBe(world.true_ms - on_ms)
  expect(doubt).toBe('wall_only')
  expect(world.changes).toEqual([])
})

test.each([HOUR_MS, -HOUR_MS, 10_000, -30_000])(
  'a kill and a step of %i ms together are right after the next sync',
  (by) => {
    const { world, on, on_ms } = started()
    world.run(30)
    world.kill(60_000, by)
    world.run(2)
    expect(world.elapsed(on).doubt).not.toBe('none')
    world.sync()
    const { elapsed_ms, doubt } = world.elapsed(on)
    expect(Math.abs(elapsed_ms - (world.true_ms - on_ms))).toBeLessThan(1_000)
    expect(doubt).toBe('none')
  },
)

test('a clock set back over a kill is known at once: check the clock', () => {
  const { world, on } = started()
  world.kill(60_000, -HOUR_MS)
  expect(world.elapsed(on).doubt).toBe('check_clock')
  expect(world.changes).toEqual([{ what: 'set_back', jump_ms: 60_000 - HOUR_MS }])
})

test('a clock set back while hidden is known: the monotonic clock is taken', () => {
  const { world, on, on_ms } = started()
  world.setClock(-HOUR_MS)
  world.sleep(40_000, 40_000)
  const { elapsed_ms, doubt } = world.elapsed(on)
  expect(elapsed_ms).toBe(world.true_ms - on_ms)
  expect(doubt).toBe('check_clock')
  expect(world.changes).toEqual([{ what: 'set_back', jump_ms: -HOUR_MS }])
})

test('of two reloads the sync puts right the one that can have hidden the step', () => {
  const world = new World()
  world.sync()
  world.kill(2_000)
  world.run(3)
  const [on, on_ms] = [world.read(), world.true_ms]
  world.run(20)
  world.kill(2 * HOUR_MS, HOUR_MS)
  world.run(2)
  world.sync()
  expect(Math.abs(world.elapsed(on).elapsed_ms - (world.true_ms - on_ms))).toBeLessThan(1_000)
})

test('a clock that was set right again while dead is not counted twice', () => {
  const { world, on, on_ms } = started()
  world.setClock(HOUR_MS)
  world.run(10)
  world.kill(5_000, -HOUR_MS)
  world.run(1)
  world.sync()
  expect(Math.abs(world.elapsed(on).elapsed_ms - (world.true_ms - on_ms))).toBeLessThan(1_000)
})

test('several gaps that hid something are right together, where the server was heard at both ends', () => {
  const { world, on, on_ms } = started()
  world.setClock(-HOUR_MS / 3)
  world.kill(HOUR_MS / 2)
  world.run(2)
  world.setClock(HOUR_MS)
  world.sleep(1_000)
  world.run(2)
  world.kill(4_000, 2 * HOUR_MS)
  world.sync()
  const { elapsed_ms, doubt } = world.elapsed(on)
  expect(Math.abs(elapsed_ms - (world.true_ms - on_ms))).toBeLessThan(1_000)
  expect(doubt).toBe('none')
})

test("another phone's run counts by the server's time between both clocks", () => {
  const { world } = started()
  world.run(60)
  const author_off_ms = -5 * HOUR_MS
  const on_true_ms = world.true_ms - 45_000
  const start = {
    ...{ at_ms: NOON_MS + on_true_ms + author_off_ms, mono_ms: 9, load: 'theirs', own: false },
    offset_ms: SERVER_AHEAD_MS - author_off_ms,
  }
  expect(elapsedOf(world.state, world.read(), start)).toEqual({ elapsed_ms: 45_000, doubt: 'none' })
})

test("another phone's run without an offset is shown by the wall and marked", () => {
  const { world } = started()
  const start = { ...world.read(), at_ms: world.read().at_ms - 9_000, own: false, load: 'theirs' }
  expect(elapsedOf(world.state, world.read(), start)).toEqual({ elapsed_ms: 9_000, doubt: 'check_clock' })
})

test('the server time is unknown until it was heard', () => {
  const world = new World()
  expect(serverTimeOf(world.state, world.read())).toBeUndefined()
  world.sync()
  expect(serverTimeOf(world.state, world.read())?.server_ms).toBe(NOON_MS + world.true_ms + SERVER_AHEAD_MS)
})

const action = fc.oneof(
  fc.record({ do: fc.constant('run' as const), n: fc.integer({ min: 1, max: 40 }) }),
  fc.record({ do: fc.constant('set' as const), n: fc.integer({ min: -7_200_000, max: 7_200_000 }) }),
  fc.record({ do: fc.constant('sleep' as const), n: fc.integer({ min: 0, max: 3_600_000 }) }),
  fc.record({ do: fc.constant('kill' as const), n: fc.integer({ min: 0, max: 3_600_000 }) }),
  fc.record({ do: fc.constant('sync' as const), n: fc.constant(0) }),
)
type Action = { do: 'run' | 'set' | 'sleep' | 'kill' | 'sync'; n: number }

function act(world: World, { do: what, n }: Action) {
  if (what === 'run') world.run(n)
  // A clock is set while the page is open and seen: unseen steps are the business of the next sync.
  if (what === 'set' && Math.abs(n) > 2_500) {
    world.setClock(n)
    world.run(1)
  }
  if (what === 'sleep') world.sleep(n)
  if (what === 'kill') world.kill(n)
  if (what === 'sync') world.sync()
}

test.each([
  ['as long as it slept', -3_001],
  ['a little less', -985],
])('a sleep with the clock set back by %s is counted once the server is heard', (_, by_ms) => {
  const { world, on, on_ms } = started()
  world.setClock(by_ms)
  world.sleep(3_001)
  world.sync()
  world.kill(4_000, -16)
  world.sync()
  expect(Math.abs(world.elapsed(on).elapsed_ms - (world.true_ms - on_ms))).toBeLessThanOrEqual(1_000)
  expect(world.elapsed(on).doubt).toBe('none')
})

test("between two words of the server a run begun unheard is off by what the span's gaps hid, and marked", () => {
  const { world } = started()
  world.kill(60_000, 20_000)
  world.run(3)
  const [on, on_ms] = [world.read(), world.true_ms]
  world.kill(60_000, 30_000)
  world.sync()
  const off_ms = Math.abs(world.elapsed(on).elapsed_ms - (world.true_ms - on_ms))
  expect(off_ms).toBeLessThanOrEqual(20_000)
  expect(world.elapsed(on).doubt).toBe('wall_only')
})

test('a word of the server that took six seconds changes no figure by more than that way can hide', () => {
  const { world, on, on_ms } = started()
  world.run(30)
  world.sync(3_000)
  world.run(3)
  expect(world.elapsed(on).elapsed_ms).toBe(world.true_ms - on_ms)
})

test('many hidden times of one page leave no trace once the server confirms them', () => {
  const { world } = started()
  for (let i = 0; i < 50; i += 1) {
    for (let minute = 0; minute < 5; minute += 1) world.sleep(60_000, 60_000)
    world.run(2)
  }
  expect(world.state.pieces).toHaveLength(51)
  world.sync()
  expect(world.state.pieces).toHaveLength(1)
})

test('whatever is set while seen, slept, killed and heard, the elapsed time is right', () => {
  fc.assert(
    fc.property(fc.array(action, { maxLength: 25 }), (actions) => {
      const { world, on, on_ms } = started()
      for (const one of actions) act(world, one)
      expect(Math.abs(world.elapsed(on).elapsed_ms - (world.true_ms - on_ms))).toBeLessThan(1_000)
    }),
    { numRuns: 300 },
  )
})

test('whatever was set unseen too, the elapsed time is right to a second once the server is heard again', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(action, fc.integer({ min: -HOUR_MS, max: HOUR_MS })), { maxLength: 15 }),
      (steps) => {
        const { world, on, on_ms } = started()
        for (const [one, unseen] of steps) {
          if (one.do === 'kill') world.kill(one.n, unseen)
          else if (one.do === 'sleep') {
            world.setClock(unseen)
            world.sleep(one.n)
          } else act(world, one)
        }
        world.sync()
        expect(Math.abs(world.elapsed(on).elapsed_ms - (world.true_ms - on_ms))).toBeLessThanOrEqual(1_000)
      },
    ),
    { numRuns: 500 },
  )
})

test('the steady line never runs backwards', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(action, fc.integer({ min: -HOUR_MS, max: HOUR_MS })), { maxLength: 20 }),
      (steps) => {
        const world = new World()
        let last = steadyOf(world.state, world.read())
        for (const [one, unseen] of steps) {
          if (one.do === 'kill') world.kill(one.n, unseen)
          else if (one.do !== 'sync') act(world, one)
          const now = steadyOf(world.state, world.read())
          expect(now).toBeGreaterThanOrEqual(last)
          last = now
        }
      },
    ),
  )
})
