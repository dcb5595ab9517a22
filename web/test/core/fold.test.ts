// What the fold promises beyond the vectors: it never throws, and it ends.
import { describe, expect, test } from 'vitest'
import type { Entry } from '../../src/core/entries.ts'
import { foldAhead, foldOnto } from '../../src/core/fold/grown.ts'
import { fold } from '../../src/core/fold/index.ts'
import { author, pen } from './writing.ts'

const office = author(9, 'office')

describe('the fold', () => {
  test('of nothing is an empty card', () => {
    const state = fold({}, [])
    expect(state).toMatchObject({ fold: 2, count: 0, registers: [], steps: [], findings: [], counts: {} })
  })

  test('follows a chain of 5,000 asides, each of the one before, without running out of stack', () => {
    const write = pen(9, office)
    const log: Entry[] = [write({ kind: 'place', body: { place: 'bay 1', over: [] } })]
    for (let count = 0; count < 5000; count += 1) {
      const hashes = [log.at(-1)?.hash ?? '']
      log.push(write({ kind: 'aside', body: { hashes, code: 'unsigned' } }))
    }
    const state = fold({}, log)
    expect(state.aside).toHaveLength(2500)
    expect(state.job.place).toBe(log[0]?.hash)
  })

  test('follows a chain of 2,000 corrections to the last', () => {
    const write = pen(9, office)
    const log: Entry[] = []
    for (let count = 0; count < 2000; count += 1) {
      const over = log.slice(-1).map((entry) => entry.hash)
      log.push(write({ kind: 'place', body: { place: `bay ${count}`, over } }))
    }
    expect(fold({}, log).registers).toMatchObject([{ shown: log.at(-1)?.hash, standing: [log.at(-1)?.hash] }])
  })

  test('keeps an entry of a kind or form that it does not know, and says so', () => {
    const write = pen(9, office)
    const known = write({ kind: 'place', body: { place: 'bay 1', over: [] } })
    const later = { ...known, v: 2, hash: '2'.repeat(64) } as unknown as Entry
    const novel = { ...known, kind: 'novel', body: {}, hash: '1'.repeat(64) } as unknown as Entry
    const state = fold({}, [later, novel, known])
    expect(state.unknown).toEqual([novel.hash, later.hash])
    expect(state.job.place).toBe(known.hash)
  })

  test('gives no member to a method digest that is a name of every object', () => {
    const pin = pen(9, office)({ kind: 'pin', body: { methods: ['constructor'], over: [] } })
    expect(fold({}, [pin]).missing_methods).toEqual(['constructor'])
  })

  test('gives the state that it gave before where nothing came to it', () => {
    const log = [pen(9, office)({ kind: 'place', body: { place: 'bay 1', over: [] } })]
    const state = fold({}, log)
    expect(foldOnto(state, {}, [...log])).toBe(state)
  })

  test('takes over what nothing came to', () => {
    const write = pen(9, office)
    const placed = write({ kind: 'place', body: { place: 'bay 1', over: [] } })
    const pinned = write({ kind: 'pin', body: { methods: [], over: [] } })
    const before = fold({}, [pinned, placed])
    const moved = write({ kind: 'place', body: { place: 'bay 2', over: [placed.hash] } })
    const grown = foldOnto(before, {}, [pinned, placed, moved])
    expect(grown.registers).toEqual(fold({}, [pinned, placed, moved]).registers)
    expect(grown.registers[0]).toBe(before.registers[0])
  })

  test('folded ahead is there at once for the entries that it was told, and for no others', () => {
    const write = pen(9, office)
    const placed = write({ kind: 'place', body: { place: 'bay 1', over: [] } })
    const before = fold({}, [placed])
    const moved = write({ kind: 'place', body: { place: 'bay 2', over: [placed.hash] } })
    const other = write({ kind: 'place', body: { place: 'bay 3', over: [placed.hash] } })
    foldAhead(before, [moved])
    const ready = foldOnto(before, {}, [placed, moved])
    expect(ready).toEqual(fold({}, [placed, moved]))
    expect(foldOnto(before, {}, [placed, moved])).toBe(ready)
    expect(foldOnto(before, {}, [placed, other])).toEqual(fold({}, [placed, other]))
  })

  test('keeps its order where a register comes that was not there', () => {
    const write = pen(9, office)
    const log = ['b', 'c', 'a'].map((person) =>
      write({ kind: 'assign', body: { person, on: true, over: [] } }),
    )
    const grown = log.reduce((state, _, at) => foldOnto(state, {}, log.slice(0, at + 1)), fold({}, []))
    expect(grown.registers.map(({ point }) => point)).toEqual(['a', 'b', 'c'])
  })
})
