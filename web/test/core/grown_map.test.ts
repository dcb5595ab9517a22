// A map that grew says what a copy with the same keys says.
import { describe, expect, it } from 'vitest'
import { grownMap } from '../../src/core/grown_map.ts'

/** 120 keys one after the other, and the same as a plain map. */
function grownOneByOne(): { grown: ReadonlyMap<string, number>; plain: Map<string, number> } {
  const plain = new Map([['first', 0]])
  let grown: ReadonlyMap<string, number> = new Map(plain)
  for (let i = 1; i <= 120; i += 1) {
    grown = grownMap(grown, [[`key ${i}`, i]])
    plain.set(`key ${i}`, i)
  }
  return { grown, plain }
}

describe('a grown map', () => {
  it('has every key in the order of its coming', () => {
    const { grown, plain } = grownOneByOne()
    expect(grown.size).toBe(121)
    expect([...grown]).toEqual([...plain])
    expect([...grown.keys()]).toEqual([...plain.keys()])
    expect([...grown.values()]).toEqual([...plain.values()])
    expect(grown.get('key 120')).toBe(120)
    expect(grown.has('key 121')).toBe(false)
  })

  it('leaves what it grew from as it was', () => {
    const before = new Map([['a', 1]])
    const once = grownMap(before, [['b', 2]])
    const twice = grownMap(once, [['c', 3]])
    expect([...before.keys()]).toEqual(['a'])
    expect([...once.keys()]).toEqual(['a', 'b'])
    expect([...twice.keys()]).toEqual(['a', 'b', 'c'])
  })
})
