// The fastener map of a step and of the whole job: next acts, jumps, sums, second rivets, what is lost and found.
import { describe, expect, it } from 'vitest'
import type { LadderState } from '../../src/core/entries.ts'
import type { PositionState } from '../../src/core/state.ts'
import { lostPieces } from '../../src/core/views/lost_pieces.ts'
import { boardOf, piecesToLose, positionFacts } from '../../src/core/views/map_view.ts'
import { isReached } from '../../src/core/views/reached.ts'
import {
  countsShown,
  generationFor,
  nextPosition,
  nextState,
  shownPlace,
  statesAhead,
  tallyOf,
} from '../../src/core/views/tally_view.ts'
import { MAPPED_22, MAPPED_40, mapCard, mapPhone, mapPlace, mark, state } from './map_phone.ts'

async function boardAt(step: string, play: (fake: ReturnType<typeof mapPhone>) => Promise<unknown>) {
  const fake = mapPhone()
  await play(fake)
  const { card, place } = await mapPlace(fake, step)
  const board = boardOf(card, place)
  const at = (id: string) => board.positions.find((one) => one.position === id) as PositionState
  return { fake, card, place, board, at }
}

describe('the board', () => {
  it('has the drawing by its hash, every position, and what the step asks of each', async () => {
    const { board, at } = await boardAt('one', async () => {})
    expect(board.drawing?.sha256).toBe('22'.repeat(32))
    expect(board.positions.length).toBe(22)
    expect([board.toOf(at('H1')), board.toOf(at('P1'))]).toEqual(['shank_out', undefined])
  })

  it('is in rows where the method has no drawing', async () => {
    const { maps: _, ...plain } = MAPPED_40
    const card = await mapCard(mapPhone(plain))
    expect(boardOf(card).drawing).toBeUndefined()
  })
})

describe('the jump', () => {
  it('goes to the next position that wants the same act, then to what is left', async () => {
    const { board } = await boardAt('out', (fake) =>
      state(fake, ['H2', 'mandrel_out'], ['H3', 'shank_out'], ['H1', 'mandrel_out']),
    )
    const header = board.positions.filter((one) => one.group === 'header')
    const from = (position: string, same: LadderState) =>
      nextPosition(header, position, 'shank_out', { same, rivets: board.rivets })
    expect(from('H1', 'mandrel_out')).toBe('H4')
    expect(from('H1', 'head_drilled')).toBe('H2')
    expect(from('H7', 'shank_out')).toBe('H1')
  })
})

describe('the counts', () => {
  it('add up to the positions, whatever happened at them', async () => {
    const { board } = await boardAt('check', async (fake) => {
      await state(fake, ['H1', 'shank_out'], ['H1', 'set', 1], ['H2', 'head_off'], ['P1', 'in_place'])
      await state(fake, ['P2', 'shank_out'], ['P2', 'set', 1], ['P2', 'shank_out', 1])
      await mark(fake, 'H3', { mark: 'lost', piece: 'head' })
    })
    const counts = countsShown(board.positions, board.toOf)
    expect(counts.reduce((sum, one) => sum + one.n, 0)).toBe(22)
    expect(counts.find((one) => one.place === 'lost')?.n).toBe(1)
  })

  it('show a rivet that nobody touched in place, and a hole without its new rivet as not started', async () => {
    const { at } = await boardAt('out', (fake) => state(fake, ['H1', 'shank_out']))
    expect(shownPlace(at('H2'), 'shank_out')).toBe('in_place')
    expect(shownPlace(at('H1'), 'shank_out')).toBe('shank_out')
    expect(shownPlace(at('H1'), 'set')).toBe('untouched')
    expect(shownPlace(at('H1'), undefined)).toBe('shank_out')
  })
})

describe('fitting after the removal of the same positions', () => {
  it('sets the first rivet as generation 1 and leaves the removal answered', async () => {
    const { board, at } = await boardAt('set', (fake) => state(fake, ['H1', 'shank_out'], ['H1', 'set', 1]))
    expect(isReached(at('H1'), 'set', board.rivets)).toBe(true)
    expect(isReached(at('H1'), 'shank_out', board.rivets)).toBe(true)
    expect(isReached(at('H2'), 'shank_out', board.rivets)).toBe(false)
    expect([generationFor(at('H2'), 'set'), nextState(at('H2'), 'set')]).toEqual([1, 'hole_checked'])
  })

  it('agrees with the fold on which asks are open', async () => {
    const out = [...Array(7)].map((_, i) => [`H${i + 1}`, 'shank_out'] as const)
    const set = [...Array(7)].map((_, i) => [`H${i + 1}`, 'set', 1] as const)
    const { card, board, fake } = await boardAt('one', (phone) => state(phone, ...out, ...set))
    const open = (id: string) => card.state.steps.find((one) => one.step === id)?.open
    expect(open('one')).toEqual([])
    expect(open('set')).toEqual(['post', 'foot'])
    const header = board.positions.filter((one) => one.group === 'header')
    expect(tallyOf(header, { to: 'shank_out' }, board.rivets).left).toBe(0)
    expect(tallyOf(header, { to: 'set' }, board.rivets).left).toBe(0)
    await state(fake, ['H4', 'shank_out', 1])
    const after = await mapCard(fake)
    expect(after.state.steps.find((one) => one.step === 'set')?.open).toEqual(['header', 'post', 'foot'])
    expect(after.state.steps.find((one) => one.step === 'one')?.open).toEqual([])
  })

  it('takes a rivet that spins out as its own, and begins the position’s second one with its hole', async () => {
    const { card, board, at } = await boardAt('set', (fake) =>
      state(fake, ['P8', 'shank_out'], ['P8', 'set', 1], ['P8', 'shank_out', 1]),
    )
    expect(isReached(at('P8'), 'set', board.rivets)).toBe(false)
    expect([generationFor(at('P8'), 'set'), nextState(at('P8'), 'set', board.rivets)]).toEqual([
      2,
      'hole_checked',
    ])
    expect(card.state.pieces.owed).toEqual({ head: 2, mandrel: 2, shank: 2 })
  })

  it('offers only what still lies ahead of the rivet that it is about', async () => {
    const { at } = await boardAt('set', (fake) =>
      state(fake, ['H1', 'rivet_seated', 1], ['H2', 'head_off', 1], ['H3', 'mandrel_out']),
    )
    expect(statesAhead(at('H1'), 'set_and_checked')).toEqual(['set', 'set_and_checked'])
    expect(statesAhead(at('H2'), 'set_and_checked')).toEqual(['shank_out'])
    expect(statesAhead(at('H3'), 'shank_out')).toEqual(['head_drilled', 'head_off', 'shank_out'])
    expect(statesAhead(at('H4'), 'shank_out')).toEqual([
      'mandrel_out',
      'head_drilled',
      'head_off',
      'shank_out',
    ])
  })
})

describe('a lost piece', () => {
  it('stays in view until it is found, and its find names it', async () => {
    const { fake, card, at } = await boardAt('out', async (phone) => {
      await state(phone, ['P8', 'shank_out'])
      await mark(phone, 'P8', { mark: 'lost', piece: 'shank' })
    })
    const [lost] = lostPieces(card)
    expect([lost?.position, lost?.piece, lost?.generation]).toEqual(['P8', 'shank', 0])
    expect(piecesToLose(at('P8'))).toEqual(['head', 'mandrel'])
    await mark(fake, 'P8', { mark: 'found', lost: lost?.hash ?? '' })
    const after = await mapCard(fake)
    expect(lostPieces(after)).toEqual([])
    const { marks } = positionFacts(
      after,
      after.state.positions.find((one) => one.position === 'P8') as PositionState,
    )
    expect(marks.map((one) => [one.mark, one.open]).sort()).toEqual([
      ['found', false],
      ['lost', false],
    ])
  })
})

describe('what is known of a position', () => {
  it('names who was there last, and the photos that show it', async () => {
    const { fake, at } = await boardAt('out', (phone) => state(phone, ['H1', 'mandrel_out']))
    const bytes = Uint8Array.from([1, 2, 3]).buffer
    const prepared = { bytes, thumb: bytes, type: 'image/jpeg' as const, width: 4, height: 3 }
    const place = { method: '', digest: '', step: '', slot: '', position: 'H1', caption: '' }
    await fake.services.store.recordPhoto(fake.entries()[0]?.entry.job ?? '', prepared, place, {
      by: '40000000-0000-4000-8000-000000000001',
      auth: 'own',
      as: ['technician'],
    })
    const facts = positionFacts(await mapCard(fake), at('H1'))
    expect(facts.photos.length).toBe(1)
    expect(facts.last?.entry.by).toBe('40000000-0000-4000-8000-000000000001')
    expect(facts.deciding?.entry.kind).toBe('tally')
    expect(MAPPED_22.maps?.[0]?.places.length).toBe(22)
  })
})
