// The card on the two methods of the rear frame: what each screen is told to show, and what its taps record.
import { describe, expect, it } from 'vitest'
import type { LotAsk, ReadingAsk } from '../../src/core/method.ts'
import { asksOf, askViewOf } from '../../src/core/views/answers.ts'
import { askOf, placeOf } from '../../src/core/views/card.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { safetyOf } from '../../src/core/views/glance_view.ts'
import { deviationsAbout, holdChecks } from '../../src/core/views/hold_view.ts'
import { faultsOf, lotsHere } from '../../src/core/views/lots_view.ts'
import { askedThisMorning, midnightBefore, standingsOf } from '../../src/core/views/morning_view.ts'
import { slotsToMoveTo } from '../../src/core/views/move_view.ts'
import { needsOf } from '../../src/core/views/needs_view.ts'
import { elapsedIn, judged, sinceOf } from '../../src/core/views/reading_view.ts'
import { changedSince } from '../../src/core/views/sign_view.ts'
import { nextAct, nextFree, standingOf } from '../../src/core/views/statuses.ts'
import { listedCount, listedSteps } from '../../src/core/views/steps_view.ts'
import { contradictionsOf } from '../../src/core/views/two_values_view.ts'
import { takersOf } from '../../src/core/views/who_view.ts'
import { keepHandedIn, readHandedIn } from '../../src/ui/phone/handed_in.ts'
import { nextOpen } from '../../src/ui/phone/reading_screen.tsx'
import { authorOf, MARA, OSKAR } from './fake_people.ts'
import type { FakePhone } from './fake_phone.ts'
import {
  answerStep,
  frameAt,
  frameCard,
  framePhone,
  own,
  photoDraft,
  playFrameTo,
  signed,
} from './played_frame.ts'

const DAY_MS = 86_400_000
const OTHER_PHONE = '20000000-0000-4000-8000-000000000002'

async function phoneAt(step: string): Promise<FakePhone> {
  const fake = framePhone()
  await playFrameTo(fake, step)
  return fake
}

async function readingAt(fake: FakePhone, step: string, id: string) {
  const { card, place } = await frameAt(fake, step)
  const ask = askOf(place, id)
  if (ask?.kind !== 'reading') throw new Error(`fixture: ${step}.${id} is no reading`)
  return { card, place, ask }
}

async function readPoint(fake: FakePhone, step: string, id: string, point: string, value: number) {
  const { card, place, ask } = await readingAt(fake, step, id)
  return own(fake, [drafts.reading(card, place, ask, point, value)])
}

async function choose(fake: FakePhone, step: string, id: string, option: string) {
  const { card, place } = await frameAt(fake, step)
  const ask = askOf(place, id)
  if (ask?.kind !== 'choice') throw new Error(`fixture: ${step}.${id} is no choice`)
  return own(fake, [drafts.choice(card, place, ask, option)])
}

describe('a step that was put off', () => {
  it('is passed by, stays in the list, and is the next act again when it is taken up', async () => {
    const fake = await phoneAt('rem-02')
    const { place } = await frameAt(fake, 'rem-02')
    const [later = ''] = await own(fake, [drafts.later(place, 'too close to the wall')])
    const put = await frameCard(fake)
    expect(nextAct(put)?.place.step.id).toBe('rem-03')
    expect(listedCount(put, 'later')).toBe(1)
    await own(fake, [drafts.strike(later, 'taken up again')])
    expect(nextAct(await frameCard(fake))?.place.step.id).toBe('rem-02')
  })

  it('comes by itself when nothing else is free', async () => {
    const fake = await phoneAt('rem-14')
    const { place } = await frameAt(fake, 'rem-14')
    await own(fake, [drafts.later(place, 'no blade')])
    expect(nextAct(await frameCard(fake))).toMatchObject({ place: { step: { id: 'rem-14' } }, later: true })
  })
})

describe('a hold point', () => {
  it('leaves what may go on meanwhile free, and holds the rest of its own method only', async () => {
    const fake = await phoneAt('rem-05')
    const { card, place } = await frameAt(fake, 'rem-05')
    expect(nextFree(card, place)?.place.step.id).toBe('rem-06')
    const hv = placeOf(card, 'removal', 'rem-07')
    const fitting = placeOf(card, 'fitting', 'fit-02')
    if (hv === undefined || fitting === undefined) throw new Error('fixture: steps missing')
    expect(standingOf(card, hv).heldBy?.step.id).toBe('rem-05')
    expect(standingOf(card, fitting)).toMatchObject({ status: 'waits', heldBy: undefined })
    expect(needsOf(card, fitting).map((need) => need.place?.number)).toEqual([41])
  })

  it('says which checks are open, which answers are outside, and who on the job may sign', async () => {
    const fake = await phoneAt('rem-09')
    await answerStep(fake, 'rem-09', ['firm', 'brace'])
    await readPoint(fake, 'rem-09', 'across', '', 25)
    const { card, place } = await frameAt(fake, 'rem-09')
    const checks = holdChecks(card, place, asksOf(card, place), MARA.id)
    expect(checks.map(({ view, is }) => [view.ask.id, is])).toEqual([
      ['across', 'outside'],
      ['brace', 'open'],
      ['firm', 'open'],
    ])
    const sign = checks.find(({ view }) => view.ask.id === 'firm')
    expect(sign?.signers?.own).toBe(false)
    expect(sign?.signers?.named.map((one) => one.name)).toEqual(['Oskar Teal'])
  })
})

describe('who takes a step', () => {
  it('is said with who on the job holds what it asks', async () => {
    const { card, place } = await frameAt(framePhone(), 'rem-07')
    expect(takersOf(card, place, authorOf(MARA))).toMatchObject({ demands: ['high_voltage'], mine: true })
    const oskar = takersOf(card, place, authorOf(OSKAR))
    expect(oskar.mine).toBe(false)
    expect(oskar.others.map((one) => one.name)).toEqual(['Mara Ilves'])
  })

  it('says that nobody on the phone does, and asks nothing where any technician may', async () => {
    const restraints = await frameAt(framePhone(), 'rem-08')
    expect(takersOf(restraints.card, restraints.place, authorOf(MARA))).toMatchObject({
      mine: false,
      others: [],
    })
    const plain = await frameAt(framePhone(), 'rem-04')
    expect(takersOf(plain.card, plain.place, authorOf(OSKAR))).toMatchObject({ demands: [], mine: true })
  })
})

describe('a reading', () => {
  it('against an earlier one is judged by the difference', async () => {
    const fake = await phoneAt('rem-09')
    await readPoint(fake, 'rem-04', 'rising', '', 19_994)
    const { card, ask } = await readingAt(fake, 'rem-09', 'rising')
    expect(judged(card, ask, '', 19_997)).toMatchObject({
      amount: 3,
      verdict: { is: 'under_maximum', by: 2 },
    })
    expect(judged(card, ask, '', 20_000)).toMatchObject({ amount: 6, verdict: { is: 'above', by: 1 } })
    expect(judged(card, ask, '', 19_988).earlier?.place?.number).toBe(4)
  })

  it('against one that nobody took is not judged', async () => {
    const { card, ask } = await readingAt(framePhone(), 'rem-09', 'rising')
    const found = judged(card, ask, '', 20_000)
    expect(found).toMatchObject({ amount: undefined, verdict: { is: 'no_limits' } })
    expect(found.earlier?.known).toBeUndefined()
  })

  it('since an earlier answer begins there, and counts whole units', async () => {
    const fake = await phoneAt('fit-16')
    expect(
      sinceOf(await frameCard(fake), (await readingAt(fake, 'fit-16', 'flash_off')).ask)?.known,
    ).toBeUndefined()
    const [coat] = await choose(fake, 'fit-16', 'coat', 'thin_and_even')
    const { card, ask } = await readingAt(fake, 'fit-16', 'flash_off')
    expect(sinceOf(card, ask)).toMatchObject({ ask: 'coat', known: { entry: { hash: coat } } })
    expect(elapsedIn(ask, 23 * 60_000 + 59_000)).toBe(23)
    expect(elapsedIn({ unit: 'h', decimals: 1 }, 7_200_000)).toBe(20)
    expect(elapsedIn({ unit: 'K', decimals: 0 }, 7_200_000)).toBeUndefined()
  })

  it('at several points goes on to the next open one, round to the first', async () => {
    const fake = await phoneAt('rem-04')
    for (const point of ['d2', 'd3', 'd6']) await readPoint(fake, 'rem-04', 'dx', point, 1)
    const { card, place, ask } = await readingAt(fake, 'rem-04', 'dx')
    const { values } = askViewOf(card, place, ask as ReadingAsk)
    expect([nextOpen(values, 0), nextOpen(values, 3), nextOpen(values, 4)]).toEqual([3, 4, 0])
  })
})

describe('an ask that depends on a choice', () => {
  it('appears only when that option was chosen', async () => {
    const fake = await phoneAt('fit-27')
    const shown = async () => {
      const { card, place } = await frameAt(fake, 'fit-27')
      return asksOf(card, place).map((view) => view.ask.id)
    }
    expect(await shown()).toEqual(['cure', 'coldest', 'progress'])
    await choose(fake, 'fit-27', 'cure', 'warm')
    expect(await shown()).toEqual(['cure', 'plan', 'mismatch', 'run', 'coldest', 'verdict', 'progress'])
    await choose(fake, 'fit-27', 'cure', 'room')
    expect(await shown()).toEqual(['cure', 'coldest', 'progress'])
  })
})

describe('a lot', () => {
  it('that is wrong or expired is kept, does not answer, and goes on with a deviation that names it', async () => {
    const fake = await phoneAt('fit-18')
    const { place } = await frameAt(fake, 'fit-18')
    const ask = askOf(place, 'adhesive') as LotAsk
    const now_ms = fake.services.device.clock.now().at_ms
    const printed = { material: 'foot_sealant', expires_ms: now_ms - DAY_MS }
    expect(faultsOf(ask, printed, now_ms)).toEqual({ wrong: true, expired: true })
    const [hash = ''] = await own(fake, [drafts.lot(place, ask, { ...printed, lot: 'S-77' })])
    const kept = await frameAt(fake, 'fit-18')
    expect(askViewOf(kept.card, kept.place, ask)).toMatchObject({ open: true, lots: [{ marked: true }] })
    await own(fake, [drafts.deviation(drafts.refOf(place), 'agreed with the office', [hash], false)])
    const after = await frameAt(fake, 'fit-18')
    expect(askViewOf(after.card, after.place, ask).open).toBe(false)
    expect(deviationsAbout(after.card, hash).map((one) => one.body.text)).toEqual(['agreed with the office'])
  })

  it('of earlier in the job is offered again, a marked one never', async () => {
    const fake = await phoneAt('fit-18')
    const { place } = await frameAt(fake, 'fit-18')
    const ask = askOf(place, 'adhesive') as LotAsk
    await own(fake, [drafts.lot(place, ask, { material: 'adhesive', lot: 'OLD', expires_ms: 1 })])
    expect(lotsHere(await frameCard(fake), 'adhesive').map((one) => one.body.lot)).toEqual(['C-1042'])
  })
})

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
