// What a tap reports: one transaction, and what could not be kept stays until it is recorded again.
import { effect, signal } from '@preact/signals'
import { describe, expect, it } from 'vitest'
import { NIL_PERSON } from '../../src/core/entries.ts'
import { askOf } from '../../src/core/views/card.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { isOutside, verdictOf } from '../../src/core/views/limits.ts'
import { armedOf } from '../../src/ui/phone/armed.tsx'
import { createModel } from '../../src/ui/phone/model.ts'
import { sharedAuthor, workNow } from '../../src/ui/phone/worker.ts'
import { MARA, OSKAR } from './fake_people.ts'
import { JOB } from './fake_phone.ts'
import { at, cardNow, playTo, spinePhone } from './played.ts'

async function settled(): Promise<void> {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve()
}

describe('recording', () => {
  it('shows the new card once the entry is kept', async () => {
    const fake = spinePhone()
    const model = createModel(fake.services)
    await settled()
    const { card, place } = await at(fake, 'spn-01')
    await model.record(JOB, [drafts.tick(card, place, 'keys')])
    expect(model.cards.value.get(JOB)?.state.count).toBe((await cardNow(fake)).state.count)
    model.stop()
  })

  it('tells with the new card what stands beside it: both are one change', async () => {
    const fake = spinePhone()
    const model = createModel(fake.services)
    await settled()
    const { card, place } = await at(fake, 'spn-01')
    const beside = signal(0)
    const seen: (readonly [number | undefined, number])[] = []
    const stop = effect(() => {
      seen.push([model.cards.value.get(JOB)?.state.count, beside.value])
    })
    await model.record(JOB, [drafts.tick(card, place, 'keys')], undefined, (written) => {
      beside.value = written.length
    })
    expect(seen).toEqual([
      [card.state.count, 0],
      [card.state.count + 1, 1],
    ])
    stop()
    model.stop()
  })

  it('takes the second press of a bouncing glove for the first', async () => {
    const fake = spinePhone()
    const model = createModel(fake.services)
    await settled()
    const { card, place } = await at(fake, 'spn-01')
    const before = fake.entries().length
    const press = () => model.record(JOB, [drafts.tick(card, place, '')])
    await Promise.all([press(), press()])
    await press()
    expect(fake.entries()).toHaveLength(before + 1)
    model.stop()
  })

  it('keeps what the full phone did not take, and takes it when tried again', async () => {
    const fake = spinePhone()
    const model = createModel(fake.services)
    await settled()
    const { card, place } = await at(fake, 'spn-01')
    const before = fake.entries().length
    fake.breakStore('full')
    expect(await model.record(JOB, [drafts.tick(card, place, 'keys')])).toBeUndefined()
    expect(model.unsaved.value?.code).toBe('full')
    expect(fake.entries()).toHaveLength(before)
    fake.breakStore(undefined)
    await model.unsaved.value?.retry()
    expect(model.unsaved.value).toBeUndefined()
    expect(fake.entries()).toHaveLength(before + 1)
    model.stop()
  })

  it('puts a reading outside its limits and the deviation that names it into one transaction', async () => {
    const fake = spinePhone()
    await playTo(fake, 'spn-04')
    const { card, place } = await at(fake, 'spn-04')
    const ask = askOf(place, 'level_along')
    if (ask?.kind !== 'reading') throw new Error('no reading')
    expect(isOutside(verdictOf(ask, 350))).toBe(true)
    const model = createModel(fake.services)
    await settled()
    const made = await model.record(JOB, [
      drafts.reading(card, place, ask, '', 350),
      (sofar) =>
        drafts.deviation(
          drafts.refOf(place),
          'slope of the floor',
          sofar.map((one) => one.hash),
          false,
        ),
    ])
    expect(made?.map((one) => one.kind)).toEqual(['reading', 'deviation'])
    expect(made?.[1]?.body).toMatchObject({ about: [made?.[0]?.hash] })
    model.stop()
  })
})

describe('a phone that several people share', () => {
  const shared = () => {
    const fake = spinePhone()
    fake.set.identity({ person: NIL_PERSON, roles: [], qualifications: [] })
    return fake
  }

  it('knows nobody until somebody is picked', async () => {
    const model = createModel(shared().services)
    await settled()
    expect(model.me().by).toBe(NIL_PERSON)
    model.stop()
  })

  it('records in the name of who works now, and says how it knew them', async () => {
    const fake = shared()
    const model = createModel(fake.services)
    await settled()
    workNow(model.worker, { person: OSKAR.id, auth: 'picked' })
    const { card, place } = await at(fake, 'spn-01')
    const made = await model.record(JOB, [drafts.tick(card, place, 'keys')])
    expect(made?.[0]).toMatchObject({ by: OSKAR.id, auth: 'picked', as: ['technician'] })
    model.stop()
  })

  it('lets nobody work who is no longer of the shop', () => {
    expect(sharedAuthor([OSKAR], { person: MARA.id, auth: 'pin' })).toMatchObject({ by: NIL_PERSON, as: [] })
  })
})

describe('what is armed', () => {
  it('promises no sound that nobody has heard, and says why', () => {
    const { device } = spinePhone().services
    expect(armedOf(device).not).toContain('sound: not tested yet')
    device.sound.heard(true)
    expect(armedOf(device).armed).toContain('sound')
  })

  it('says that the screen may lock while no wake lock is held', async () => {
    const { device } = spinePhone().services
    expect(armedOf(device).not).toContain('screen: it may lock')
    await device.wakeLock.hold()
    expect(armedOf(device).armed).toContain('screen stays on')
  })

  it('promises no notification where it is allowed and nobody was asked to call', () => {
    const { device } = spinePhone().services
    const allowed = { ...device, notices: { ...device.notices, view: signal('granted' as const) } }
    expect(armedOf(allowed).armed).not.toContain('notification')
    expect(armedOf(allowed, true).armed).toContain('notification')
    expect(armedOf(device, true).not).toContain('notification: not allowed here')
  })
})
