// The photographer's list: what is wanted now, what disappears first, what came too late, and why a slot asks again.
import { describe, expect, it } from 'vitest'
import { askOf } from '../../src/core/views/card.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import {
  aboutMissed,
  deviationOf,
  missedTogether,
  type WantedSlot,
  wantedCount,
  wantedViewOf,
} from '../../src/core/views/photo_view.ts'
import { sideNamed } from '../../src/ui/phone/side_named.ts'
import { authorOf, OSKAR } from './fake_people.ts'
import {
  answerStep,
  frameAt,
  frameCard,
  framePhone,
  own,
  photoDraft,
  playFrameTo,
  playStep,
} from './played_frame.ts'

const OTHER_PHONE = '20000000-0000-4000-8000-000000000002'
const names = (slots: readonly WantedSlot[]) => slots.map(({ place, ask }) => `${place.step.id}.${ask.id}`)

async function wanted(fake: ReturnType<typeof framePhone>) {
  return wantedViewOf(await frameCard(fake))
}

/** rem-02 done without its photos. */
async function walkedRound(fake: ReturnType<typeof framePhone>, but: readonly string[]) {
  await playFrameTo(fake, 'rem-02')
  await answerStep(fake, 'rem-02', but)
  const { card, place } = await frameAt(fake, 'rem-02')
  await own(fake, [drafts.tick(card, place, '')])
}

describe('wanted', () => {
  it('is only what the card has come to; the rest is counted', async () => {
    const fake = framePhone()
    const { now, later } = await wanted(fake)
    expect(now.flatMap((group) => names(group.slots))).toEqual(['rem-01.vin'])
    expect(wantedCount(later)).toBe(53)
  })

  it('goes by deadline, and says how many open steps come before it', async () => {
    const fake = framePhone()
    await walkedRound(fake, ['front_left', 'damage_close'])
    const { now } = await wanted(fake)
    const group = now.find(({ before }) => before?.step.id === 'rem-10')
    expect(names(group?.slots ?? [])).toEqual(['rem-02.front_left', 'rem-02.damage_close'])
    expect(group?.steps_left).toBe(7) // rem-03 to rem-09
  })

  it('is too late once the step that makes it impossible is done', async () => {
    const fake = framePhone()
    await walkedRound(fake, ['front_left', 'damage_close'])
    for (const step of ['rem-03', 'rem-04', 'rem-05', 'rem-06', 'rem-07', 'rem-08', 'rem-09', 'rem-10'])
      await playStep(fake, step)
    const { missed, told } = await wanted(fake)
    expect(names(missed)).toEqual(['rem-02.front_left', 'rem-02.damage_close'])
    expect(missed[0]?.missed?.step.id).toBe('rem-10')
    expect(told).toEqual([])
  })

  it('is told by one deviation for what one deadline took from one step', async () => {
    const fake = framePhone()
    await walkedRound(fake, ['front_left', 'damage_close'])
    for (const step of ['rem-03', 'rem-04', 'rem-05', 'rem-06', 'rem-07', 'rem-08', 'rem-09', 'rem-10'])
      await playStep(fake, step)
    const card = await frameCard(fake)
    const slot = wantedViewOf(card).missed[0]
    if (slot === undefined) throw new Error('fixture: nothing is missed')
    expect(names(missedTogether(card, slot))).toEqual(['rem-02.front_left', 'rem-02.damage_close'])
    const said = drafts.deviation(
      drafts.refOf(slot.place),
      'the camera was flat',
      aboutMissed(card, slot),
      false,
    )
    const [hash] = await own(fake, [said])
    const after = await frameCard(fake)
    expect(deviationOf(after, slot)).toBe(hash)
    expect(wantedViewOf(after).missed).toEqual([])
    expect(names(wantedViewOf(after).told)).toEqual(['rem-02.front_left', 'rem-02.damage_close'])
  })
})

describe('a sharp picture of the wrong side', () => {
  /** The left slot got the right-hand quarter; it was struck, before or after its deadline. */
  async function wrongSide(until: string) {
    const fake = framePhone()
    await walkedRound(fake, ['damage_wide'])
    const { card, place } = await frameAt(fake, 'rem-02')
    const [hash = ''] = await own(fake, [photoDraft(place, 'damage_wide')])
    for (const later of card.steps.slice(2)) {
      if (later.step.id === until) break
      await playStep(fake, later.step.id)
    }
    await own(fake, [drafts.strike(hash, 'shows the right side')])
    return { fake, hash }
  }

  it('is struck with a reason, and the slot asks again and says why', async () => {
    const { fake } = await wrongSide('rem-04')
    const slot = (await wanted(fake)).now
      .flatMap((group) => group.slots)
      .find(({ ask }) => ask.id === 'damage_wide')
    expect(slot?.gone.map(({ why, by }) => [why, by])).toEqual([['shows the right side', 'strike']])
    expect(slot?.before?.step.id).toBe('rem-10')
  })

  it('becomes a deviation that names it where its moment has passed', async () => {
    const { fake, hash } = await wrongSide('rem-11')
    const card = await frameCard(fake)
    const slot = wantedViewOf(card).missed.find(({ ask }) => ask.id === 'damage_wide')
    if (slot === undefined) throw new Error('not missed')
    expect(aboutMissed(card, slot)).toContain(hash)
    const said = drafts.deviation(
      drafts.refOf(slot.place),
      'the other side only',
      aboutMissed(card, slot),
      false,
    )
    await own(fake, [said])
    const after = await wanted(fake)
    expect(after.missed).toEqual([])
    expect(names(after.told)).toEqual(['rem-02.damage_wide'])
  })

  it('asks again too where the office sent it back, with its remark', async () => {
    const fake = framePhone()
    await walkedRound(fake, [])
    const { card } = await frameAt(fake, 'rem-02')
    const slot = card.state.slots.find((one) => one.step === 'rem-02' && one.slot === 'damage_wide')
    const body = { hashes: [...(slot?.photos ?? [])], remark: 'the card cannot be read' }
    fake.brought({ kind: 'send_back', body }, authorOf(OSKAR), OTHER_PHONE)
    const again = (await wanted(fake)).now
      .flatMap((group) => group.slots)
      .find(({ ask }) => ask.id === 'damage_wide')
    expect(again?.gone.map(({ why, by }) => [why, by])).toEqual([['the card cannot be read', 'office']])
  })

  it('is not said of a photo that was moved into its right slot', async () => {
    const fake = framePhone()
    await walkedRound(fake, ['damage_wide', 'damage_close'])
    const { place } = await frameAt(fake, 'rem-02')
    await own(fake, [photoDraft(place, 'damage_close')])
    const entry = fake.entries().at(-1)?.entry
    if (entry?.kind !== 'photo') throw new Error('no photo')
    await own(fake, drafts.movedPhoto(entry, { place, slot: 'damage_wide' }, 'wrong slot'))
    const again = (await wanted(fake)).now
      .flatMap((group) => group.slots)
      .find(({ ask }) => ask.id === 'damage_close')
    expect(again?.gone).toEqual([])
  })
})

describe('the side', () => {
  it.each([
    ['rem-02', 'front_left', 'left'],
    ['rem-02', 'rear_right', 'right'],
    ['rem-02', 'damage_wide', 'left'],
    ['rem-02', 'damage_close', undefined],
  ])('of %s.%s is %s, where its words name one', async (step, slot, side) => {
    const { place } = await frameAt(framePhone(), step)
    const ask = askOf(place, slot)
    if (ask?.kind !== 'photo') throw new Error('no photo ask')
    expect(sideNamed(ask)).toBe(side)
  })
})
