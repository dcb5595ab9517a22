// What stands beside a damaged hole on the map, and what its sheet says of the room for a larger rivet.
import { describe, expect, it } from 'vitest'
import * as drafts from '../../src/core/views/drafts.ts'
import { besideHoles } from '../../src/core/views/hole_neighbours.ts'
import { drawingOf } from '../../src/core/views/map_view.ts'
import { besideWords } from '../../src/ui/parts/fastener_map_words.ts'
import { computePhone, playComputedTo } from './played_compute.ts'
import { frameAt, frameCard, own } from './played_frame.ts'

describe('a hole that is marked damaged', () => {
  it('leads to its two neighbours in the row, which say so, and to one at the end of a row', async () => {
    const fake = computePhone()
    await playComputedTo(fake, 'rem-39')
    const { card, place } = await frameAt(fake, 'rem-39')
    for (const position of ['P6', 'H1']) {
      const at = card.state.positions.find((one) => one.position === position)
      if (at) await own(fake, [drafts.tallyMark(at, 'damaged_hole', '')])
    }
    const now = await frameCard(fake)
    const map = drawingOf(place.method)?.map
    if (map === undefined) throw new Error('no drawing')
    const beside = besideHoles(now.state.positions, map, [])
    expect(
      beside
        .find(({ hole }) => hole === 'P6')
        ?.neighbours.slice()
        .sort(),
    ).toEqual(['P5', 'P7'])
    expect(beside.find(({ hole }) => hole === 'H1')?.neighbours).toEqual(['H2'])
    expect(besideWords('P7', beside)).toEqual(['beside the damaged hole P6'])
    expect(besideWords('F1', beside)).toEqual([])
  })
})
