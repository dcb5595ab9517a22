// Rivets: what the main key offers next, what is still to account for, and what adds up.
import { describe, expect, it } from 'vitest'
import type { Draft, LadderState } from '../../src/core/entries.ts'
import type { PositionState } from '../../src/core/state.ts'
import { asksOf, positionsOf } from '../../src/core/views/answers.ts'
import { askOf } from '../../src/core/views/card.ts'
import { computeViewOf, resultDraft } from '../../src/core/views/compute_view.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { generationFor, nextPosition, nextState, tallyOf } from '../../src/core/views/tally_view.ts'
import { firstOpen } from '../../src/ui/phone/step_done.ts'
import type { FakePhone } from './fake_phone.ts'
import { at, cardNow, rivetsOut, spinePhone, write } from './played.ts'

function position(state: LadderState | '', generation = 0): PositionState {
  return {
    position: 'H1',
    group: 'header',
    generation,
    state,
    deciding: '',
    marks: [],
    place: state || 'untouched',
  }
}

describe('the next state of a rivet', () => {
  it.each([
    ['', 'mandrel_out'],
    ['mandrel_out', 'head_drilled'],
    ['head_off', 'shank_out'],
    ['shank_out', undefined],
    ['set_and_checked', 'mandrel_out'],
  ] as const)('when taking out, after "%s" is %s', (state, next) => {
    expect(nextState(position(state), 'shank_out')).toBe(next)
  })

  it('when setting, begins a new generation after the rivet on the car', () => {
    expect(generationFor(position('shank_out'), 'set')).toBe(1)
    expect(generationFor(position(''), 'set')).toBe(1)
    expect(nextState(position('shank_out'), 'set')).toBe('hole_checked')
  })

  it('when setting, goes on within the generation and ends where the step asks', () => {
    expect(nextState(position('rivet_seated', 1), 'set_and_checked')).toBe('set')
    expect(nextState(position('set_and_checked', 1), 'set_and_checked')).toBeUndefined()
  })

  it('when setting, takes a rivet wholly out before the next one, for it owes its pieces', () => {
    const halfOut = position('head_off', 1)
    expect(generationFor(halfOut, 'set')).toBe(1)
    expect(nextState(halfOut, 'set')).toBe('shank_out')
    expect(generationFor(position('shank_out', 1), 'set')).toBe(2)
    expect(nextState(position('shank_out', 1), 'set')).toBe('hole_checked')
  })
})

describe('the tally', () => {
  it('counts each position in one place, and a lost piece outranks the state', async () => {
    const fake = spinePhone()
    await rivetsOut(fake, ['H1', 'H2'])
    await write(fake, [
      { kind: 'tally', body: { position: 'H2', generation: 0, mark: 'lost', piece: 'shank', lost: '' } },
    ])
    const card = await cardNow(fake)
    const tally = tallyOf(positionsOf(card, ['header']), { to: 'shank_out' })
    expect(tally.counts).toEqual([
      { place: 'shank_out', n: 1 },
      { place: 'in_place', n: 2 },
      { place: 'lost', n: 1 },
    ])
    expect(tally.left).toBe(3)
  })

  it('jumps to the next position that is not there yet and stays at the last', async () => {
    const fake = spinePhone()
    await rivetsOut(fake, ['H2'])
    const header = positionsOf(await cardNow(fake), ['header'])
    expect(nextPosition(header, 'H1', 'shank_out')).toBe('H3')
    await rivetsOut(fake, ['H1', 'H3', 'H4'])
    expect(nextPosition(positionsOf(await cardNow(fake), ['header']), 'H4', 'shank_out')).toBe('H4')
  })
})

describe('the key of a step that counts rivets', () => {
  const lost = (position: string): Draft => ({
    kind: 'tally',
    body: { position, generation: 0, mark: 'lost', piece: 'shank', lost: '' },
  })
  const nextOpen = async (fake: FakePhone) => {
    const { card, place } = await at(fake, 'spn-05')
    return firstOpen(asksOf(card, place).filter(({ ask }) => ask.kind === 'tally'))?.ask.id
  }

  it('counts on while a rivet is on its way, whatever is lost there', async () => {
    const fake = spinePhone()
    await rivetsOut(fake, ['H1', 'H2', 'H3', 'H4', 'P1'])
    await write(fake, [drafts.tallyState({ position: 'P2', generation: 0 }, 'head_off'), lost('P2')])
    expect(await nextOpen(fake)).toBe('post')
  })

  it('is not led back to the count by a lost piece alone, though the tally stays open', async () => {
    const fake = spinePhone()
    await rivetsOut(fake, ['H1', 'H2', 'H3', 'H4', 'P1', 'P2'])
    await write(fake, [lost('P2')])
    expect(await nextOpen(fake)).toBeUndefined()
    expect((await at(fake, 'spn-05')).place.state.open).toContain('post')
  })
})

describe('the reconciliation', () => {
  async function computed() {
    const fake = spinePhone()
    await rivetsOut(fake, ['H1', 'H2', 'H3', 'H4', 'P1', 'P2'])
    const look = async () => {
      const { card, place } = await at(fake, 'spn-06')
      const ask = askOf(place, 'accounted')
      if (ask?.kind !== 'compute') throw new Error('no computation')
      return { card, place, ask, view: computeViewOf(card, place, ask) }
    }
    return { fake, look }
  }

  it('adds up when every piece of every rivet is there', async () => {
    const { look } = await computed()
    const { answer } = (await look()).view
    expect(answer?.verdict).toBe('inside')
    expect(answer?.values).toContainEqual({ name: 'taken_shank', value: 6, unit: 'pieces', decimals: 0 })
  })

  it('is recorded with inputs that the fold takes as current, and is stale once a piece is lost', async () => {
    const { fake, look } = await computed()
    const { card, place, ask, view } = await look()
    await write(fake, [resultDraft(card, place, ask, view)])
    expect((await look()).place.state.open).not.toContain('accounted')
    await write(fake, [
      { kind: 'tally', body: { position: 'P2', generation: 0, mark: 'lost', piece: 'shank', lost: '' } },
    ])
    const after = await look()
    expect(after.view).toMatchObject({ stale: true, answer: { verdict: 'outside' } })
    expect(after.place.state.open).toContain('accounted')
  })

  it('adds up again when the lost piece is found, and both facts stay', async () => {
    const { fake, look } = await computed()
    await write(fake, [
      { kind: 'tally', body: { position: 'P2', generation: 0, mark: 'lost', piece: 'shank', lost: '' } },
    ])
    const before = (await look()).card.state.positions.find((one) => one.position === 'P2')
    if (before === undefined) throw new Error('no P2')
    await write(fake, [drafts.tallyMark(before, 'found', '', before.marks[0]?.hash)])
    const after = await look()
    expect(after.view.answer?.verdict).toBe('inside')
    expect(after.card.state.positions.find((one) => one.position === 'P2')?.marks).toHaveLength(2)
  })
})
