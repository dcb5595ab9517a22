// What the map says of a position: its state, what is lost or torn, and which rivet it is.
import { describe, expect, it } from 'vitest'
import type { PositionState } from '../../src/core/state.ts'
import { mapRivet, positionWords } from '../../src/ui/parts/fastener_map_words.ts'

function position(more: Partial<PositionState>): PositionState {
  const place = more.place ?? (more.state || 'untouched')
  return { position: 'P8', group: 'post', generation: 0, state: '', deciding: '', marks: [], ...more, place }
}

const LOST = { hash: 'a', mark: 'lost', piece: 'shank', open: true } as const
const TORN = { hash: 'b', mark: 'damaged_hole', piece: '', open: true } as const

describe('a position in words', () => {
  it('says its state, also of a rivet that nobody touched yet', () => {
    expect(positionWords(position({}), 'shank_out')).toBe('P8, in place')
    expect(positionWords(position({ state: 'head_off' }), 'shank_out')).toBe('P8, head off')
  })

  it('says what is lost first, and the state beside it', () => {
    const at = position({ state: 'shank_out', place: 'lost', marks: [LOST] })
    expect(positionWords(at, 'shank_out')).toBe('P8, shank lost inside, shank out')
    expect(mapRivet(at, 'shank_out', true)).toMatchObject({ shape: 'lost', soft: false })
  })

  it('adds a damaged hole to the state and draws it', () => {
    const at = position({ state: 'shank_out', marks: [TORN] })
    expect(positionWords(at, 'shank_out')).toBe('P8, shank out, damaged hole')
    expect(mapRivet(at, 'shank_out', false).shape).toBe('damaged_hole')
  })

  it('numbers a replaced rivet as soon as the one before it is out', () => {
    const spun = position({ state: 'set', generation: 1 })
    const out = position({ state: 'shank_out', generation: 1 })
    expect(positionWords(spun, 'set')).toBe('P8, set')
    expect(positionWords(out, 'set')).toBe('P8, not started, 2nd rivet')
    expect(mapRivet(out, 'set', false).nth).toBe(2)
    expect(positionWords(out, undefined)).toBe('P8, shank out')
  })
})
