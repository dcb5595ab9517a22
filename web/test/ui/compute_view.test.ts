// Computations of the card: gathered from earlier entries, waiting for what is not there, stale when it moves on.
import { beforeEach, describe, expect, it } from 'vitest'
import type { Answer } from '../../src/core/computations/shapes.ts'
import { askOf } from '../../src/core/views/card.ts'
import { resultDraft, wantsReason } from '../../src/core/views/compute_view.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { chosenValues } from '../../src/core/views/length_choice.ts'
import type { FakePhone } from './fake_phone.ts'
import {
  answerWorkedOut,
  computePhone,
  playComputedTo,
  readAgain,
  viewAt,
  workOut,
} from './played_compute.ts'
import { frameAt, own } from './played_frame.ts'

const MIN = 60_000
let fake: FakePhone

async function at(step: string): Promise<void> {
  fake = computePhone()
  await playComputedTo(fake, step)
}

const waitsOf = (view: Awaited<ReturnType<typeof viewAt>>['view']) =>
  view.waits.map(({ ref }) => `${ref.step}.${ref.ask}`)

describe('the dew point margin of fit-04', () => {
  beforeEach(() => at('fit-04'), 60_000)

  it('waits for what was not read, by name, and works nothing out', async () => {
    await readAgain(fake, 'fit-04', 'air', { '': 221 })
    const { view } = await viewAt(fake, 'fit-04', 'dew_point')
    expect(waitsOf(view)).toEqual(['fit-04.humidity', 'fit-04.flange'])
    expect(view.answer).toBeUndefined()
  })

  it('rests on the entries that it was worked out from, and is stale once one is read anew', async () => {
    await readAgain(fake, 'fit-04', 'air', { '': 221 })
    await readAgain(fake, 'fit-04', 'humidity', { '': 58 })
    await readAgain(fake, 'fit-04', 'flange', { '': 194 })
    const { card, place, ask, view } = await viewAt(fake, 'fit-04', 'dew_point')
    const sources = view.inputs.flatMap((one) => one.sources.map((source) => source.known.entry.hash))
    const result = resultDraft(card, place, ask, view)
    expect(result.kind === 'result' && result.body.inputs).toEqual([...sources].sort())
    await own(fake, [result])
    expect((await viewAt(fake, 'fit-04', 'dew_point')).view.stale).toBe(false)
    await readAgain(fake, 'fit-04', 'flange', { '': 171 })
    expect((await viewAt(fake, 'fit-04', 'dew_point')).view.stale).toBe(true)
  })

  it('is followed at fit-17 by the way that it goes', async () => {
    await answerWorkedOut(fake, 'fit-04')
    fake.pass(60 * MIN)
    for (const id of ['air', 'humidity', 'flange'] as const) {
      await readAgain(fake, 'fit-17', id, { '': { air: 230, humidity: 45, flange: 200 }[id] })
    }
    const { view } = await viewAt(fake, 'fit-17', 'dew_point')
    expect(view.answer?.lines.map((line) => line.code)).toContain('falling')
  })
})

function countsOf(picked: Answer | undefined): unknown {
  const named = (picked?.values ?? []).filter(({ name }) => name.startsWith('lay_') || name === 'to_pick')
  return Object.fromEntries(named.map(({ name, value }) => [name, value]))
}

describe('the rivets of fit-10', () => {
  beforeEach(() => at('fit-10'), 60_000)

  it('on a border of two rows want a length and a reason, and are picked by what was chosen', async () => {
    // 4.35 laminate + 1.30 bondline + 2.85 flange = 8.50: 12 mm ends there, 14 mm begins there
    await readAgain(fake, 'fit-10', 'laminate', { header: 320, post: 435, foot: 320 })
    const { card, place, ask, view } = await viewAt(fake, 'fit-10', 'grip')
    expect(view.answer?.verdict).toBe('inside')
    expect(wantsReason(view)).toBe(true)
    const chosen = chosenValues(view.gathered.question, { post: 140 })
    await own(fake, [resultDraft(card, place, ask, view, chosen)])
    const picked = (await viewAt(fake, 'fit-10', 'picked')).view.answer
    expect(picked?.verdict).toBe('inside')
    expect(picked?.lines.map((line) => [line.code, line.at])).toContainEqual(['length_chosen', ['post']])
    // The header's 7 of 12 mm; 9 of the post and 6 of the foot of 14 mm; 2 to spare and 2 for trial of each.
    expect(countsOf(picked)).toEqual({ lay_12mm: 11, lay_14mm: 19, to_pick: 30 })
  })

  it('that nobody chose a length for are not laid ready as if one had', async () => {
    await readAgain(fake, 'fit-10', 'laminate', { header: 320, post: 435, foot: 320 })
    await workOut(fake, 'fit-10', 'grip')
    const picked = (await viewAt(fake, 'fit-10', 'picked')).view.answer
    expect(picked?.verdict).toBe('outside')
    expect(picked?.lines.map((line) => [line.code, line.at])).toContainEqual(['length_open', ['post']])
  })

  it('are picked only once the grip stands', async () => {
    await readAgain(fake, 'fit-10', 'laminate', { header: 320, post: 320, foot: 320 })
    expect(waitsOf((await viewAt(fake, 'fit-10', 'picked')).view)).toEqual(['fit-10.grip'])
    await workOut(fake, 'fit-10', 'grip')
    const picked = (await viewAt(fake, 'fit-10', 'picked')).view.answer
    // 22 for the holes; of 12 and of 14 mm 2 to spare and 2 for trial each.
    expect(countsOf(picked)).toEqual({ lay_12mm: 20, lay_14mm: 10, to_pick: 30 })
  })

  it('notice a lot that was past its date', async () => {
    const { place } = await frameAt(fake, 'fit-03')
    const ask = askOf(place, 'rivets')
    if (ask?.kind !== 'lot') throw new Error('no lot ask')
    await own(fake, [drafts.lot(place, ask, { material: ask.of, lot: 'OLD', expires_ms: 1 })])
    await readAgain(fake, 'fit-10', 'laminate', { header: 320, post: 320, foot: 320 })
    const { view } = await viewAt(fake, 'fit-10', 'grip')
    expect(view.answer?.lines.find((line) => line.code === 'lot_expired')?.at).toEqual(['OLD'])
  })
})

describe('the cure of fit-27', () => {
  beforeEach(() => at('fit-27'), 60_000)

  const choose = async (option: string) => {
    const { card, place } = await frameAt(fake, 'fit-27')
    const ask = askOf(place, 'cure')
    if (ask?.kind === 'choice') await own(fake, [drafts.choice(card, place, ask, option)])
  }

  it('waits for the choice that its run hangs on, then for the run, or leaves it out', async () => {
    await readAgain(fake, 'fit-27', 'coldest', { '': 186 })
    expect(waitsOf((await viewAt(fake, 'fit-27', 'progress')).view)).toEqual(['fit-27.cure'])
    await choose('warm')
    expect(waitsOf((await viewAt(fake, 'fit-27', 'progress')).view)).toEqual(['fit-27.run'])
    await choose('room')
    const { view } = await viewAt(fake, 'fit-27', 'progress')
    expect(view.waits).toEqual([])
    expect(view.inputs.map((one) => one.name)).not.toContain('run')
  })

  it('counts from the first gram to now', async () => {
    await choose('room')
    await readAgain(fake, 'fit-27', 'coldest', { '': 230 })
    const before = (await viewAt(fake, 'fit-27', 'progress')).view.answer
    fake.pass(60 * MIN)
    const after = (await viewAt(fake, 'fit-27', 'progress')).view.answer
    const elapsed = (one: typeof before) => one?.values.find((value) => value.name === 'elapsed')?.value ?? 0
    expect(elapsed(after) - elapsed(before)).toBe(60)
  })

  it('names the rivets among its inputs', async () => {
    const { view } = await viewAt(fake, 'fit-25', 'accounted')
    const rivets = view.inputs.find((one) => one.name === 'tallies')?.input
    expect(rivets?.kind === 'rivets' && rivets.rivets.length).toBe(22)
  })

  it('names the hole that the method gives, in its unit, among the inputs of a decision', async () => {
    const { view } = await viewAt(fake, 'rem-39', 'decision')
    const given = view.inputs.filter((one) => one.name.startsWith('rivet.')).map((one) => one.input)
    // The scenario of the method file: holes of 4.9 to 5.1 mm.
    expect(given).toEqual([
      { kind: 'quantity', value: 49, unit: 'mm', decimals: 1 },
      { kind: 'quantity', value: 51, unit: 'mm', decimals: 1 },
    ])
  })

  it('counts no rivet that was taken out when it counts those that were set', async () => {
    const { view } = await viewAt(fake, 'fit-25', 'accounted')
    expect(view.answer?.values.find((value) => value.name === 'owed_mandrel')?.value).toBe(22)
  })
})
