// What the fastener map reports on taps, long presses and keys.
import { describe, expect, it } from 'vitest'
import {
  HOLD_MS,
  longPress,
  type MapReports,
  reportKey,
  reportTap,
} from '../../src/ui/parts/fastener_map_press.ts'

const PLACES = [
  { id: 'H1', x: 100, y: 50 },
  { id: 'H2', x: 140, y: 50 },
]
const IDS = ['H1', 'H2', 'H3']

function listening(): { said: unknown[]; to: MapReports } {
  const said: unknown[] = []
  const to = {
    onPick: (id: string) => said.push(['pick', id]),
    onMoveOn: () => said.push('move on'),
    onMarks: (id: string) => said.push(['marks', id]),
    zoomBy: (by: number) => said.push(['zoom', by > 1 ? 'closer' : 'farther']),
  }
  return { said, to }
}

function tapped(at: { x: number; y: number }, picked: string, isDeaf = false): unknown[] {
  const { said, to } = listening()
  reportTap({ places: PLACES, at, picked, isDeaf }, to)
  return said
}

function pressed(key: string, picked: string, more = {}): unknown[] {
  const { said, to } = listening()
  const known = reportKey({ key, ctrlKey: false, metaKey: false, altKey: false, ...more }, IDS, picked, to)
  return known ? said : ['not ours']
}

describe('a tap', () => {
  it('picks the nearest position', () => {
    expect(tapped({ x: 130, y: 70 }, 'H1')).toEqual([['pick', 'H2']])
  })

  it('on the picked position moves its rivet on', () => {
    expect(tapped({ x: 95, y: 60 }, 'H1')).toEqual(['move on'])
  })

  it('far from the picked position, though nothing is nearer, does nothing', () => {
    expect(tapped({ x: 100, y: 200 }, 'H1')).toEqual([])
  })

  it('that bounces does not move on what it has just picked', () => {
    expect(tapped({ x: 100, y: 50 }, 'H1', true)).toEqual([])
    expect(tapped({ x: 100, y: 50 }, 'H1', false)).toEqual(['move on'])
  })
})

/** Timers that a test rings itself. */
function bell() {
  const waiting = new Map<number, { call: () => void; after_ms: number }>()
  let n = 0
  return {
    timers: {
      set: (call: () => void, after_ms: number) => {
        n += 1
        waiting.set(n, { call, after_ms })
        return n
      },
      clear: (timer: unknown) => void waiting.delete(timer as number),
    },
    ring: () => {
      const all = [...waiting.values()]
      waiting.clear()
      for (const one of all) one.call()
      return all.map((one) => one.after_ms)
    },
  }
}

describe('a long press', () => {
  it('opens the marks after half a second, and is then no tap', () => {
    const { timers, ring } = bell()
    const held: unknown[] = []
    const press = longPress((at) => held.push(at), timers)
    press.down({ x: 5, y: 6 })
    expect(ring()).toEqual([HOLD_MS])
    expect(HOLD_MS).toBe(500)
    expect(held).toEqual([{ x: 5, y: 6 }])
    press.end()
    expect(press.takesClick()).toBe(true)
    expect(press.takesClick()).toBe(false)
  })

  it('is none when the finger slides away or lifts', () => {
    const { timers, ring } = bell()
    const held: unknown[] = []
    const press = longPress((at) => held.push(at), timers)
    press.down({ x: 5, y: 6 })
    press.move({ x: 5, y: 30 })
    expect(ring()).toEqual([])
    press.down({ x: 5, y: 6 })
    press.move({ x: 9, y: 9 })
    press.end()
    expect(ring()).toEqual([])
    expect([held, press.takesClick()]).toEqual([[], false])
  })

  it('opens the marks once, though the system shows its menu for the same press', () => {
    const { timers, ring } = bell()
    const press = longPress(() => {}, timers)
    press.down({ x: 5, y: 6 })
    ring()
    expect(press.menu()).toBe(false)
    press.takesClick()
    press.down({ x: 5, y: 6 })
    expect(press.menu()).toBe(true)
    expect(ring()).toEqual([])
  })
})

describe('the keyboard', () => {
  it('follows the numbers, and goes round at the ends', () => {
    expect(pressed('ArrowRight', 'H1')).toEqual([['pick', 'H2']])
    expect(pressed('ArrowDown', 'H3')).toEqual([['pick', 'H1']])
    expect(pressed('ArrowUp', 'H1')).toEqual([['pick', 'H3']])
    expect(pressed('ArrowLeft', 'H2')).toEqual([['pick', 'H1']])
    expect(pressed('Home', 'H2')).toEqual([['pick', 'H1']])
    expect(pressed('End', 'H1')).toEqual([['pick', 'H3']])
  })

  it('does all that fingers do', () => {
    expect(pressed('Enter', 'H2')).toEqual(['move on'])
    expect(pressed(' ', 'H2')).toEqual(['move on'])
    expect(pressed('m', 'H2')).toEqual([['marks', 'H2']])
    expect(pressed('+', 'H2')).toEqual([['zoom', 'closer']])
    expect(pressed('-', 'H2')).toEqual([['zoom', 'farther']])
  })

  it('leaves the browser its own', () => {
    expect(pressed('+', 'H2', { ctrlKey: true })).toEqual(['not ours'])
    expect(pressed('Tab', 'H2')).toEqual(['not ours'])
  })
})
