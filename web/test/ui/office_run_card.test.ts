// The office's chart of a run is the phone's: the same log gives the same curves, pinned or not.
import { expect, test } from 'vitest'
import { runViewOf } from '../../src/core/views/heat_view.ts'
import { EMPTY_LOG, type JobLog, withEntries } from '../../src/core/views/office_log.ts'
import { officeRunCard } from '../../src/core/views/office_run_card.ts'
import { runChartOf } from '../../src/core/views/run_chart_view.ts'
import { type FakePhone, JOB } from './fake_phone.ts'
import { cardNow, playTo, read, spinePhone, switchOn } from './played.ts'

async function running(): Promise<{ fake: FakePhone; run: string; log: JobLog }> {
  const fake = spinePhone()
  await playTo(fake, 'spn-09')
  const run = await switchOn(fake)
  await read(fake, run, 62_000, [131, 128, 158])
  await read(fake, run, 110_000, [140, 129, 160])
  const items = fake.entries().map(({ entry }) => ({ entry, received_ms: entry.at_ms }))
  const methods = await fake.services.store.methods()
  return { fake, run, log: withEntries({ ...EMPTY_LOG, job: JOB, methods }, items) }
}

test('a run is drawn in the office as on the phone', async () => {
  const { fake, run, log } = await running()
  const card = await cardNow(fake)
  const [onPhone, office] = [runViewOf(card, run), runViewOf(officeRunCard(log, card.state), run)]
  if (onPhone === undefined || office === undefined) throw new Error('no run')
  expect(runChartOf(officeRunCard(log, card.state), office)).toEqual(runChartOf(card, onPhone))
  expect(office.moments.map(({ lagging, leading }) => [lagging, leading])).toEqual([
    [128, 158], // in this method all three sit on the bond
    [129, 160],
  ])
})

test('a run under a revision that is pinned no more is drawn under its own', async () => {
  const { fake, run, log } = await running()
  const card = await cardNow(fake)
  const unpinned = { ...card.state, steps: [] }
  expect(runViewOf(officeRunCard(log, unpinned), run)?.zone.id).toBe('upper')
})

test('a run whose method is not here is not drawn', async () => {
  const { fake, run, log } = await running()
  const { state } = await cardNow(fake)
  expect(runViewOf(officeRunCard({ ...log, methods: {} }, state), run)).toBeUndefined()
})
