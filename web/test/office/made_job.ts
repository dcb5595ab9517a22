// The job page over the real fold, after entries that a test names, and the entries that most of them make.
import type { Draft } from '../../src/core/entries.ts'
import { fold } from '../../src/core/fold/index.ts'
import type { RegisterLine } from '../../src/core/views/office_filing.ts'
import { type OfficeJob, officeJob } from '../../src/core/views/office_job.ts'
import { ADA, hashAt, logOf, type Made, OPENED, PIM, REF } from './a_job.ts'

/** The job's page after these entries. */
export function jobOf(
  made: readonly Made[],
  here: readonly string[] = [],
  register?: readonly RegisterLine[],
): OfficeJob {
  const log = { ...logOf([...OPENED, ...made]), photosHere: new Set(here) }
  const state = fold(
    log.methods,
    log.items.map((item) => item.entry),
  )
  return officeJob(log, state, register)
}

export const itemsOf = (job: OfficeJob) => job.groups.flatMap((group) => group.items)
export const gap = (value: number, over: readonly string[] = []): Made => ({
  kind: 'reading',
  body: { ...REF, step: 'measure', ask: 'gap', point: '', value, unit: 'mm', decimals: 1, over },
})
export const tick = (step: string): Made => ({
  kind: 'tick',
  body: { ...REF, step, ask: '', value: 'done', reason: '', over: [] },
})
export const photo = (sha256: string): Made => ({
  kind: 'photo',
  by: PIM,
  body: {
    ...REF,
    step: 'measure',
    slot: 'before',
    sha256,
    bytes: 10,
    type: 'image/jpeg',
    width: 4,
    height: 3,
    thumb: 'e'.repeat(64),
    position: '',
    caption: '',
  },
})

/** The hash of the first of them, or of a later one. */
export const first = (made: readonly Made[], index = 0): string =>
  hashAt(logOf([...OPENED, ...made]), OPENED.length + index)
export const byOffice = (draft: Draft): Made => ({ ...draft, by: ADA, as: ['office'] })
