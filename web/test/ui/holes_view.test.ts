// What each hole allows, hole by hole, before all of them are read; the demo's drawing gives the edges.
import { beforeAll, describe, expect, it } from 'vitest'
import type { Card } from '../../src/core/views/card.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { besideHoles } from '../../src/core/views/hole_neighbours.ts'
import { drawnHoles, type HoleView, holesOf, roomAskOf } from '../../src/core/views/holes_view.ts'
import { drawingOf } from '../../src/core/views/map_view.ts'
import { mapRivet } from '../../src/ui/parts/fastener_map_words.ts'
import { decisionRows, holeRows } from '../../src/ui/phone/tally_holes.ts'
import type { FakePhone } from './fake_phone.ts'
import { computePhone, playComputedTo, readAgain } from './played_compute.ts'
import { frameAt, frameCard, own } from './played_frame.ts'

let fake: FakePhone
let card: Card

const hole = (position: string): HoleView => {
  const found = holesOf(card).find((one) => one.position === position)
  if (found === undefined) throw new Error(`no hole ${position}`)
  return found
}
const at = (position: string) => {
  const found = card.state.positions.find((one) => one.position === position)
  if (found === undefined) throw new Error(`no ${position}`)
  return found
}
const plain = (rows: readonly (readonly [string, string])[]) =>
  rows.map(([name, words]) => `${name}: ${words.replaceAll('\u202f', ' ').replaceAll('\u00a0', ' ')}`)

/** Holes of 4.8 mm rivets may be 4.90 to 5.10; the next size is 6.4 mm and is drilled to 6.50. */
beforeAll(async () => {
  fake = computePhone()
  await playComputedTo(fake, 'rem-39')
  expect(drawnHoles(await frameCard(fake))).toEqual([])
  await readAgain(fake, 'rem-39', 'along', { h1: 497, h4: 524, p6: 523, p9: 520, p2: 498, h2: 487 })
  await readAgain(fake, 'rem-39', 'across', { h1: 498, h4: 498, p6: 497, p9: 497, p2: 497 })
  await readAgain(fake, 'rem-39', 'edge', { h4: 138 })
  const before = await frameAt(fake, 'rem-39')
  const torn = before.card.state.positions.find(({ position }) => position === 'P2')
  if (torn) await own(fake, [drafts.tallyMark(torn, 'damaged_hole', '')])
  card = await frameCard(fake)
}, 60_000)

describe('what a hole allows', () => {
  it('is said of those that were read both ways, and of a damaged one by its mark', () => {
    expect(['H1', 'H4', 'P6', 'P2', 'H2', 'F6'].map((one) => hole(one).word)).toEqual([
      'used',
      'larger',
      'larger',
      'to_maker',
      'not_read',
      'not_read',
    ])
  })

  it('asks for the edge where a hole goes up a size and nobody read it there, nowhere else', () => {
    expect(drawnHoles(card).flatMap((one) => (one.wantsRoom ? [one.position] : []))).toEqual(['P6'])
    expect([roomAskOf(card)?.place.step.id, roomAskOf(card)?.ask]).toEqual(['rem-39', 'edge'])
  })

  it('goes to the maker where one layer has no room: 17.0 mm of laminate at P9, 19.20 are needed', () => {
    expect([hole('P9').word, hole('P9').found?.decision.why]).toEqual(['to_maker', 'edge_short'])
    expect(plain(holeRows(card, at('P9')))).toContain(
      'Edge, laminate: 17.0 mm by the drawing; 6.4 mm needs 19.20 mm (3 diameters): too little',
    )
  })

  it('tells its figures and its neighbours on the sheet of the position', () => {
    expect(plain(decisionRows(card, at('H4')))).toEqual(['Decision: next size, 6.4 mm, drill to 6.50 mm'])
    expect(plain(holeRows(card, at('H4')))).toEqual([
      'Edge, flange: 13.8 mm read here; 6.4 mm needs 12.80 mm (2 diameters)',
      'Edge, laminate: 21.0 mm by the drawing; 6.4 mm needs 19.20 mm (3 diameters)',
      'To the next hole: 65.0 mm by the drawing; 6.4 mm needs 25.60 mm (4 diameters)',
      'Checked again: H3 and H5: the larger rivet counts',
    ])
    expect(plain(holeRows(card, at('H3')))).toContain(
      'Beside it: H4 goes up a size: this distance is checked with the larger rivet',
    )
  })

  it('is drawn and said on the map, with lines to those that are checked again', () => {
    const map = card.steps.map(({ method }) => drawingOf(method)).find((one) => one !== undefined)?.map
    if (map === undefined) throw new Error('no drawing')
    const beside = besideHoles(card.state.positions, map, drawnHoles(card))
    expect(beside.find((one) => one.hole === 'H4')).toEqual({
      hole: 'H4',
      neighbours: ['H3', 'H5'],
      larger: true,
    })
    const drawn = mapRivet(at('H3'), undefined, false, beside, drawnHoles(card))
    expect([drawn.hole, drawn.beside]).toEqual(['not_read', true])
    expect(drawn.name).toContain('not measured, beside H4, which goes up a size')
    expect(mapRivet(at('H4'), undefined, false, beside, drawnHoles(card)).name).toContain('next size')
  })
})
