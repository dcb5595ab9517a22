// The card on the two methods of the rear frame: what each screen is told to show, and what its taps record.
import { describe, expect, it } from 'vitest'
import type { LotAsk, ReadingAsk } from '../../src/core/method.ts'
import { asksOf, askViewOf } from '../../src/core/views/answers.ts'
import { askOf, placeOf } from '../../src/core/views/card.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { deviationsAbout, holdChecks } from '../../src/core/views/hold_view.ts'
import { faultsOf, lotsHere } from '../../src/core/views/lots_view.ts'
import { needsOf } from '../../src/core/views/needs_view.ts'
import { elapsedIn, judged, sinceOf } from '../../src/core/views/reading_view.ts'
import { nextAct, nextFree, standingOf } from '../../src/core/views/statuses.ts'
import { listedCount } from '../../src/core/views/steps_view.ts'
import { takersOf } from '../../src/core/views/who_view.ts'
import { nextOpen } from '../../src/ui/phone/reading_screen.tsx'
import { authorOf, MARA, OSKAR } from './fake_people.ts'
import {
  answerStep,
  choose,
  frameAt,
  frameCard,
  framePhone,
  own,
  phoneAt,
  readingAt,
  readPoint,
} from './played_frame.ts'

const DAY_MS = 86_400_000

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
