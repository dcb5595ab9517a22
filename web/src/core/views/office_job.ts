/** All that the office's job page shows, from one log and its card state. */
import type { OpenBody } from '../entries.ts'
import type { MethodDoc } from '../method.ts'
import type { CardState } from '../state.ts'
import { type AsideView, asideViews } from './office_asides.ts'
import { type Filing, filingOf, type RegisterLine } from './office_filing.ts'
import { type DeviationView, deviationViews, type FindingView, findingViews } from './office_findings.ts'
import { entryOf, type JobLog, madeAtMs } from './office_log.ts'
import { type Lack, lacksOf } from './office_missing.ts'
import { pinnedMethods } from './office_names.ts'
import { type PhotoViews, photoViews } from './office_photos.ts'
import { type RunView, runViews } from './office_runs.ts'
import { type Progress, progressOf, type StageView, stageViews } from './office_steps.ts'
import { type TallyView, tallyView } from './office_tally.ts'
import { type TimeGroup, timeLine } from './office_timeline.ts'

export type JobHead = Omit<OpenBody, 'over'> & {
  readonly opened_ms: number
  readonly place: string
  readonly closed: boolean
  readonly methods: readonly MethodDoc[]
  readonly assigned: readonly string[]
}

export type OfficeJob = {
  readonly log: JobLog
  readonly state: CardState
  readonly head: JobHead
  readonly filing: Filing
  readonly groups: readonly TimeGroup[]
  readonly stages: readonly StageView[]
  readonly progress: Progress
  readonly photos: PhotoViews
  readonly runs: readonly RunView[]
  readonly findings: readonly FindingView[]
  readonly deviations: readonly DeviationView[]
  readonly asides: readonly AsideView[]
  readonly tally: TallyView
  readonly lacks: readonly Lack[]
}

const UNOPENED: Omit<OpenBody, 'over'> = {
  order: '',
  vin: '',
  vehicle: '',
  part: '',
  side: 'none',
  invented: false,
}

function headOf(log: JobLog, state: CardState): JobHead {
  const opened = log.byHash.get(state.job.open)
  return {
    ...(entryOf(log, state.job.open, 'open')?.body ?? UNOPENED),
    opened_ms: opened === undefined ? 0 : madeAtMs(opened),
    place: entryOf(log, state.job.place, 'place')?.body.place ?? '',
    closed: state.job.closed,
    methods: pinnedMethods(log, state),
    assigned: state.job.assigned,
  }
}

/** `register`: the register of the filed, once it is read. */
export function officeJob(
  log: JobLog,
  state: CardState,
  register: readonly RegisterLine[] | undefined,
): OfficeJob {
  const filing = filingOf(log, register)
  const stages = stageViews(log, state)
  const progress = progressOf(stages)
  const photos = photoViews(log, state)
  const runs = runViews(log, state)
  const findings = findingViews(log, state)
  const deviations = deviationViews(log, state)
  return {
    log,
    state,
    head: headOf(log, state),
    filing,
    groups: timeLine(log, state, filing),
    stages,
    progress,
    photos,
    runs,
    findings,
    deviations,
    asides: asideViews(log, state),
    tally: tallyView(log, state),
    lacks: lacksOf({ state, progress, photos, findings, deviations, runs }),
  }
}
