// What the card says: which act is next, what is held, what is wanted, where a record is.
import { describe, expect, it } from 'vitest'
import { asksOf } from '../../src/core/views/answers.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { safetyOf } from '../../src/core/views/glance_view.ts'
import { inOrder, jobViewOf } from '../../src/core/views/job_view.ts'
import { wantedViewOf } from '../../src/core/views/photo_view.ts'
import { mayStrike, recordsOf } from '../../src/core/views/records_view.ts'
import { isOutsideLimits, sawOf, signersOf } from '../../src/core/views/sign_view.ts'
import { nextAct, nextFree, standingOf } from '../../src/core/views/statuses.ts'
import { holdOfRest } from '../../src/ui/phone/card_end.tsx'
import { ADA, authorOf, MARA, OSKAR } from './fake_people.ts'
import {
  answer,
  at,
  cardNow,
  playTo,
  read,
  shoot,
  sign,
  spinePhone,
  switchOn,
  tickStep,
  write,
} from './played.ts'

const RUN_TIME = { run_ms: 170_000, run_doubt: false, typed_time: false }

describe('the next act', () => {
  it('is the first step of a fresh job', async () => {
    expect(nextAct(await cardNow(spinePhone()))?.place.step.id).toBe('spn-01')
  })

  it('is a hold point whose checks are open, and the step that may go on meanwhile is offered beside it', async () => {
    const fake = spinePhone()
    await playTo(fake, 'spn-02')
    const { card, place } = await at(fake, 'spn-02')
    expect(nextAct(card)).toMatchObject({ place, heldBy: place })
    expect(nextFree(card, place)?.place.step.id).toBe('spn-03')
  })

  it('waits at a step behind a hold point until a deviation passes it', async () => {
    const fake = spinePhone()
    await playTo(fake, 'spn-02')
    const before = await at(fake, 'spn-04')
    expect(standingOf(before.card, before.place).heldBy?.step.id).toBe('spn-02')
    const { place } = await at(fake, 'spn-02')
    await write(fake, [drafts.deviation(drafts.refOf(place), 'agreed by telephone', [], true)])
    const after = await at(fake, 'spn-03')
    expect(standingOf(after.card, after.place).heldBy).toBe(after.place)
  })

  it('stays with a running heat run until a step that waited for its moment is free', async () => {
    const fake = spinePhone()
    await playTo(fake, 'spn-09')
    await tickStep(fake, 'spn-11')
    const run = await switchOn(fake)
    expect(nextAct(await cardNow(fake))).toMatchObject({ status: 'running' })
    await write(fake, [drafts.heatAct(run, 'workable', RUN_TIME)])
    expect(nextAct(await cardNow(fake))?.place.step.id).toBe('spn-10')
  })

  it('is none when every step is done', async () => {
    const fake = spinePhone()
    await playTo(fake, 'spn-09')
    for (const step of ['spn-09', 'spn-10', 'spn-11', 'spn-12']) await tickStep(fake, step)
    expect(nextAct(await cardNow(fake))).toBeUndefined()
  })
})

describe('a card with no free step', () => {
  it('leads to the hold point that holds the rest, though its step was recorded done', async () => {
    const fake = spinePhone()
    await tickStep(fake, 'spn-01')
    for (let next = nextAct(await cardNow(fake)); next; next = nextAct(await cardNow(fake)))
      await tickStep(fake, next.place.step.id)
    expect(holdOfRest(await cardNow(fake))?.step.id).toBe('spn-02')
  })
})

describe('an ask', () => {
  it('shows what was recorded last and names what it replaces', async () => {
    const fake = spinePhone()
    await answer(fake, 'spn-01')
    const { card, place } = await at(fake, 'spn-01')
    const again = drafts.text(card, place, 'vin_read', 'INV00000000000002')
    await write(fake, [again])
    const after = await at(fake, 'spn-01')
    const view = asksOf(after.card, after.place).find((one) => one.ask.id === 'vin_read')
    expect(view?.values[0]?.known?.entry).toMatchObject({ body: { value: 'INV00000000000002' } })
    expect(view?.values[0]?.twoStand).toBe(false)
  })

  it('says that two values stand when two devices answered without seeing each other', async () => {
    const fake = spinePhone()
    const { card, place } = await at(fake, 'spn-01')
    const both = ['one', 'two'].map((value) => drafts.text(card, place, 'vin_read', value))
    for (const draft of both) await write(fake, [draft])
    const after = await at(fake, 'spn-01')
    expect(asksOf(after.card, after.place)[0]?.values[0]?.twoStand).toBe(true)
  })

  it('shows the office’s remark until the value is recorded again', async () => {
    const fake = spinePhone()
    await answer(fake, 'spn-01')
    const text = fake.entries().find((one) => one.entry.kind === 'text')?.entry.hash ?? ''
    fake.brought({ kind: 'send_back', body: { hashes: [text], remark: 'not whole' } }, authorOf(ADA))
    const sent = await at(fake, 'spn-01')
    expect(asksOf(sent.card, sent.place)[0]).toMatchObject({
      open: true,
      values: [{ sentBack: 'not whole' }],
    })
    await write(fake, [drafts.text(sent.card, sent.place, 'vin_read', 'INV3')])
    const again = await at(fake, 'spn-01')
    expect(asksOf(again.card, again.place)[0]).toMatchObject({ open: false, values: [{ sentBack: '' }] })
  })
})

describe('a countersign', () => {
  it('is for somebody else than the author of a value', async () => {
    const fake = spinePhone()
    await playTo(fake, 'spn-03')
    await answer(fake, 'spn-03')
    const { card, place } = await at(fake, 'spn-03')
    const signers = signersOf(card, sawOf(card, place, 'seen_dead'), 'second_person', MARA.id)
    expect(signers.own).toBe(false)
    expect(signers.ownValue).toBe(true)
    expect(signers.others.map((one) => one.name)).toEqual(['Oskar Teal'])
  })

  it('tells who signs which value is outside its limits', async () => {
    const fake = spinePhone()
    await playTo(fake, 'spn-03')
    const { card, place } = await at(fake, 'spn-03')
    const ask = place.step.asks.find((one) => one.kind === 'reading')
    if (ask?.kind !== 'reading' || ask.max === undefined)
      throw new Error('spine.yaml: spn-03 reads a voltage')
    const point = ask.points[0]?.id ?? ''
    await write(fake, [drafts.reading(card, place, ask, point, ask.max + 1)])
    const after = await at(fake, 'spn-03')
    const seen = sawOf(after.card, after.place, 'seen_dead')
    expect(seen.filter((hash) => isOutsideLimits(after.card, hash))).toHaveLength(1)
  })

  it('counts when it names all that the fold asks for, a rivet’s deciding entry among them', async () => {
    const fake = spinePhone()
    await playTo(fake, 'spn-03')
    await answer(fake, 'spn-03')
    await sign(fake, 'spn-03', 'seen_dead', authorOf(OSKAR))
    expect((await cardNow(fake)).state.countersigns.map((one) => one.counts)).toEqual([true, true])
  })
})

describe('photos', () => {
  it('are wanted in the order of what makes them impossible, and go when they are taken', async () => {
    const fake = spinePhone()
    expect(wantedViewOf(await cardNow(fake)).now.map((group) => group.before?.step.id)).toEqual(['spn-07'])
    await playTo(fake, 'spn-04')
    const slots = async () => wantedViewOf(await cardNow(fake)).now.flatMap((group) => group.slots)
    expect((await slots())[0]?.before?.step.id).toBe('spn-06')
    await shoot(fake, 'spn-04', 'stands')
    expect((await slots()).map(({ ask }) => ask.id)).not.toContain('stands')
  })
})

describe('the glance line', () => {
  it('names the conditions that hold and says when pads are hot, with the highest reading', async () => {
    const fake = spinePhone()
    await playTo(fake, 'spn-09')
    expect(safetyOf(await cardNow(fake)).hot).toBe(false)
    const run = await switchOn(fake)
    await read(fake, run, 62_000, [131, 128, 158])
    const safety = safetyOf(await cardNow(fake))
    expect(safety).toMatchObject({ hot: true, temperature: { value: 158, decimals: 0 } })
    expect(safety.conditions.filter((one) => one.on).map((one) => one.id)).toEqual(
      expect.arrayContaining(['locked_and_dead', 'on_stands', 'extraction_on', 'pads_hot']),
    )
  })
})

describe('my records', () => {
  it('say where each is, and keep a struck one readable with its reason', async () => {
    const fake = spinePhone()
    await answer(fake, 'spn-01')
    const mine = recordsOf(await cardNow(fake), MARA.id)
    expect(mine.every((one) => one.place === 'phone' && one.canStrike)).toBe(true)
    const target = mine.at(-1)?.known.entry.hash ?? ''
    await write(fake, [drafts.strike(target, 'wrong van')])
    const struck = recordsOf(await cardNow(fake), MARA.id).find((one) => one.known.entry.hash === target)
    expect(struck).toMatchObject({ struck: 'wrong van', canStrike: false })
  })

  it('of another person are struck by the office only', async () => {
    const fake = spinePhone()
    await answer(fake, 'spn-01')
    const entry = fake.entries().at(-1)?.entry
    if (entry === undefined) throw new Error('nothing recorded')
    expect(mayStrike(entry, authorOf(OSKAR))).toBe(false)
    expect(mayStrike(entry, authorOf(ADA))).toBe(true)
  })

  it('that the office set aside say so', async () => {
    const fake = spinePhone()
    await answer(fake, 'spn-01')
    const hash = fake.entries().at(-1)?.entry.hash ?? ''
    fake.brought({ kind: 'aside', body: { hashes: [hash], code: 'unsigned' } }, authorOf(ADA))
    const aside = recordsOf(await cardNow(fake), MARA.id).find((one) => one.known.entry.hash === hash)
    expect(aside).toMatchObject({ place: 'aside', asideCode: 'unsigned', canStrike: false })
  })
})

describe('my jobs', () => {
  it('show order, part, progress and what is next', async () => {
    const fake = spinePhone()
    await playTo(fake, 'spn-02')
    expect(jobViewOf(await cardNow(fake))).toMatchObject({
      order: '214',
      part: 'Bracket half',
      place: 'Bay 2',
      invented: true,
      progress: { done: 1, all: 12 },
    })
  })

  it('stand with the hot one first, then as they were opened', async () => {
    const job = jobViewOf(await cardNow(spinePhone()))
    const [late, early] = [
      { ...job, job: 'a', opened_ms: 2 },
      { ...job, job: 'b', opened_ms: 1 },
    ]
    const hot = { ...job, job: 'c', opened_ms: 3, run: {} as NonNullable<typeof job.run> }
    expect(inOrder([late, early, hot]).map((one) => one.job)).toEqual(['c', 'b', 'a'])
  })
})
