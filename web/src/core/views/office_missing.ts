/** What a job still lacks for filing; what blocks asks for a written reason. */
import type { CardState } from '../state.ts'
import type { DeviationView, FindingView } from './office_findings.ts'
import type { PhotoViews } from './office_photos.ts'
import type { RunView } from './office_runs.ts'
import type { Progress } from './office_steps.ts'

export type LackCode =
  | 'missing_methods'
  | 'no_method'
  | 'steps_open'
  | 'holds_open'
  | 'findings_open'
  | 'deviations_open'
  | 'photos_wanted'
  | 'photos_not_here'
  | 'set_aside'
  | 'unknown_kinds'
  | 'run_hot'
  | 'not_closed'

export type Lack = { readonly code: LackCode; readonly count: number; readonly words: string }

export type LackInput = {
  readonly state: CardState
  readonly progress: Progress
  readonly photos: PhotoViews
  readonly findings: readonly FindingView[]
  readonly deviations: readonly DeviationView[]
  readonly runs: readonly RunView[]
}

const isOpen = (one: { readonly accepted?: unknown }): boolean => one.accepted === undefined
const isHot = (run: RunView): boolean => run.state === 'hot' || run.state === 'aborted_hot'

/** In the order in which the office mends them; empty means complete. */
export function lacksOf(input: LackInput): readonly Lack[] {
  const { state, progress, photos } = input
  const lack = (code: LackCode, count: number, words = ''): Lack => ({ code, count, words })
  const hot = input.runs.filter(isHot)
  return [
    lack('missing_methods', state.missing_methods.length),
    lack('no_method', state.job.pin === '' ? 1 : 0),
    lack('steps_open', progress.total - progress.done, progress.next?.title ?? ''),
    lack('holds_open', progress.unpassed),
    lack('run_hot', hot.length, hot[0]?.zone ?? ''),
    lack('findings_open', input.findings.filter(isOpen).length),
    lack('deviations_open', input.deviations.filter(isOpen).length),
    lack('photos_wanted', photos.wanted),
    lack('photos_not_here', photos.notHere.length),
    lack('set_aside', state.aside.length),
    lack('unknown_kinds', state.unknown.length),
    lack('not_closed', state.job.closed ? 0 : 1),
  ].filter((one) => one.count > 0)
}
