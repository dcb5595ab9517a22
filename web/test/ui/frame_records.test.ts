// Records of the rear frame that meet others: two answers, voided signs, looks, lost pieces, moved photos, the list.
import { describe, expect, it } from 'vitest'
import { asksOf, askViewOf } from '../../src/core/views/answers.ts'
import { askOf } from '../../src/core/views/card.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { safetyOf } from '../../src/core/views/glance_view.ts'
import { askedThisMorning, midnightBefore, standingsOf } from '../../src/core/views/morning_view.ts'
import { slotsToMoveTo } from '../../src/core/views/move_view.ts'
import { changedSince, sawOf, seenTogether } from '../../src/core/views/sign_view.ts'
import { listedCount, listedSteps } from '../../src/core/views/steps_view.ts'
import { contradictionsOf } from '../../src/core/views/two_values_view.ts'
import { keepHandedIn, readHandedIn } from '../../src/ui/phone/handed_in.ts'
import { isAnew } from '../../src/ui/phone/step_done.ts'
import { authorOf, MARA, OSKAR } from './fake_people.ts'
import {
  answerStep,
  choose,
  frameAt,
  frameCard,
  framePhone,
  own,
  phoneAt,
  photoDraft,
  readPoint,
  signed,
} from './played_frame.ts'

const DAY_MS = 86_400_000
const OTHER_PHONE = '20000000-0000-4000-8000-000000000002'

describe('two who answer the same step without seeing each other', () => {
  async function moment4(option: string) {
    const fake = await phoneAt('rem-14')
    const { card, place } = await frameAt(fake, 'rem-14')
    const ask = askOf(place, 'marks')
    if (ask?.kind !== 'choice') throw new Error('fixture: rem-14.marks is no choice')
    await own(fake, [drafts.choice(card, place, ask, 'none'), drafts.tick(card, place, '')])
    fake.pass(540_000)
    fake.brought(drafts.choice(card, place, ask, option), authorOf(OSKAR), OTHER_PHONE)
    fake.brought(drafts.tick(card, place, ''), authorOf(OSKAR), OTHER_PHONE)
    return fake
  }

  it('are both shown while they say different things, with the step done', async () => {
    const fake = await moment4('scratch_in_the_coating')
    const { card, place } = await frameAt(fake, 'rem-14')
    expect(place.state.done).toBe('done')
    const [found, ...others] = contradictionsOf(card)
    expect(others).toEqual([])
    expect(found).toMatchObject({ place: { step: { id: 'rem-14' } }, ask: 'marks' })
    expect(found?.standing.map(({ entry }) => entry.by)).toEqual([MARA.id, OSKAR.id])
  })

  it('are settled by typing it again over both', async () => {
    const fake = await moment4('scratch_in_the_coating')
    await choose(fake, 'rem-14', 'marks', 'scratch_in_the_coating')
    expect(contradictionsOf(await frameCard(fake))).toEqual([])
  })

  it('do not contradict each other where they say the same', async () => {
    const fake = await moment4('none')
    expect(contradictionsOf(await frameCard(fake))).toEqual([])
  })
})

describe('a countersign', () => {
  it('counts no more when a value that it saw is typed again, and says which', async () => {
    const fake = await phoneAt('fit-06')
    await answerStep(fake, 'fit-06', ['fits'])
    await readPoint(fake, 'fit-06', 'gap', 'g5', 350)
    await signed(fake, 'fit-06', 'fits')
    await readPoint(fake, 'fit-06', 'gap', 'g5', 35)
    const { card, place } = await frameAt(fake, 'fit-06')
    const ask = askOf(place, 'fits')
    if (ask === undefined) throw new Error('fixture: no countersign')
    const view = askViewOf(card, place, ask)
    expect(view).toMatchObject({ open: true, signs: [{ state: { counts: false, why: 'superseded' } }] })
    const [sign] = view.signs
    const changed = sign ? changedSince(card, sign) : []
    expect(changed).toMatchObject([
      { was: { body: { point: 'g5', value: 350 } }, now: { body: { point: 'g5', value: 35 } } },
    ])
    expect(
      asksOf(card, place)
        .filter(isAnew)
        .map((one) => one.ask.id),
    ).toEqual(['fit', 'fits'])
  })

  it('is told the points of one reading together, and the one that is outside by itself', async () => {
    const fake = await phoneAt('fit-06')
    await answerStep(fake, 'fit-06', ['fits'])
    await readPoint(fake, 'fit-06', 'gap', 'g5', 350)
    const { card, place } = await frameAt(fake, 'fit-06')
    const gaps = seenTogether(card, sawOf(card, place, 'fits')).map((group) =>
      group.flatMap(({ body }) =>
        'ask' in body && body.ask === 'gap' && 'point' in body ? [body.point] : [],
      ),
    )
    expect(gaps.filter((points) => points.length > 0)).toEqual([
      ['g1', 'g2', 'g3', 'g4', 'g6', 'g7', 'g8'],
      ['g5'],
    ])
  })
})

describe('standing conditions', () => {
  it('are asked once on the next morning, and not on the day that they were set', async () => {
    const fake = await phoneAt('rem-14')
    const now = () => midnightBefore(fake.services.device.clock.now().at_ms)
    expect(askedThisMorning(await frameCard(fake), now())).toEqual([])
    fake.pass(DAY_MS)
    const names = (await frameCard(fake)).state.conditions.filter((one) => one.on).map((one) => one.id)
    expect(askedThisMorning(await frameCard(fake), now()).map((one) => one.doc.id)).toEqual(names)
    await own(fake, [drafts.condition(await frameCard(fake), 'on_stands', true)])
    const left = askedThisMorning(await frameCard(fake), now()).map((one) => one.doc.id)
    expect(left).toEqual(names.filter((id) => id !== 'on_stands'))
  })

  it('that changed are said so at the top until somebody has seen them hold again', async () => {
    const fake = await phoneAt('rem-14')
    const gone = async () => {
      const card = await frameCard(fake)
      const told = safetyOf(card).conditions.filter((one) => one.gone)
      expect(standingsOf(card).filter((one) => one.gone)).toHaveLength(told.length)
      return told.map((one) => one.id)
    }
    await own(fake, [drafts.condition(await frameCard(fake), 'on_stands', false)])
    expect(await gone()).toEqual(['on_stands'])
    await own(fake, [drafts.condition(await frameCard(fake), 'on_stands', true)])
    expect(await gone()).toEqual([])
  })
})

describe('a piece lost inside', () => {
  it('stays in the glance line until it is found', async () => {
    const fake = await phoneAt('rem-19')
    const at = { position: 'P8', generation: 0 } as const
    const [lost = ''] = await own(fake, [
      { kind: 'tally', body: { ...at, mark: 'lost', piece: 'shank', lost: '' } },
    ])
    expect(safetyOf(await frameCard(fake)).lost).toEqual(['P8'])
    await own(fake, [{ kind: 'tally', body: { ...at, mark: 'found', piece: 'shank', lost } }])
    expect(safetyOf(await frameCard(fake)).lost).toEqual([])
  })
})

describe('a photo', () => {
  it('is moved by recording it in the other slot and striking it here, as one', async () => {
    const fake = await phoneAt('rem-36')
    const { place } = await frameAt(fake, 'rem-36')
    await own(fake, [photoDraft(place, 'post')])
    const entry = fake.entries().at(-1)?.entry
    if (entry?.kind !== 'photo') throw new Error('no photo')
    const to = slotsToMoveTo(await frameCard(fake), entry.body)
    expect(to[0]).toMatchObject({ place: { step: { id: 'rem-36' } }, ask: { id: 'header' }, taken: 0 })
    const made = await own(fake, drafts.movedPhoto(entry, { place, slot: 'header' }, 'wrong slot'))
    const { slots } = (await frameCard(fake)).state
    const photosIn = (slot: string) => slots.find((one) => one.step === 'rem-36' && one.slot === slot)?.photos
    expect(photosIn('header')).toEqual([made[0]])
    expect(photosIn('post')).toEqual([])
    const kept = fake.entries().find((one) => one.entry.hash === made[0])?.entry
    expect(kept).toMatchObject({ body: { sha256: entry.body.sha256, slot: 'header' } })
  })
})

describe('the list of steps', () => {
  it('stands by method and stage, and can be cut to what is free now', async () => {
    const card = await frameCard(await phoneAt('rem-06'))
    const all = listedSteps(card, 'all')
    expect(all.map((method) => method.title)).toEqual([
      'Take the left rear-aperture frame half off',
      'Bond and rivet the new left rear-aperture frame half on',
    ])
    expect(all[0]?.stages[0]).toMatchObject({ title: 'Receive the vehicle', done: 5, all: 5 })
    const free = listedSteps(card, 'free').flatMap((method) => method.stages.flatMap((stage) => stage.steps))
    expect(free.map((one) => one.standing.place.step.id)).toEqual(['rem-06'])
    expect(listedCount(card, 'holds')).toBe(21)
  })
})

describe('a hand-in', () => {
  it('is remembered with its time and how much it held', async () => {
    const { store } = framePhone().services
    expect(await readHandedIn(store)).toBeUndefined()
    await keepHandedIn(store, { at_ms: 1_000, count: 7 })
    expect(await readHandedIn(store)).toEqual({ at_ms: 1_000, count: 7 })
  })
})
