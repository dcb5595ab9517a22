/** The computations by the names that a method may write. */
import { beadVolume } from './bead_volume.ts'
import { bestFit } from './best_fit.ts'
import { bitUse } from './bit_use.ts'
import { cureProgress } from './cure_progress.ts'
import { dewPointMargin } from './dew_point_margin.ts'
import { edgeDistance } from './edge_distance.ts'
import { galvanicPairs } from './galvanic_pairs.ts'
import { gapAndStep } from './gap_and_step.ts'
import { grip } from './grip.ts'
import { heatPlan } from './heat_plan.ts'
import { heatVerdict } from './heat_verdict.ts'
import { holeDecision } from './hole_decision.ts'
import { laminateDrying } from './laminate_drying.ts'
import { openTime } from './open_time.ts'
import { pickList } from './pick_list.ts'
import type { Question } from './question.ts'
import { type Answer, Refusal } from './shapes.ts'
import { reconciliation } from './tally_reconciliation.ts'
import { thermalMismatch } from './thermal_mismatch.ts'

export const BOOK: { readonly [name: string]: (asked: Question) => Answer } = {
  bead_volume: beadVolume,
  best_fit: bestFit,
  bit_use: bitUse,
  cure_progress: cureProgress,
  dew_point_margin: dewPointMargin,
  edge_distance: edgeDistance,
  galvanic_pairs: galvanicPairs,
  gap_and_step: gapAndStep,
  grip,
  heat_plan: heatPlan,
  heat_verdict: heatVerdict,
  hole_decision: holeDecision,
  laminate_drying: laminateDrying,
  open_time: openTime,
  pick_list: pickList,
  tally_reconciliation: reconciliation,
  thermal_mismatch: thermalMismatch,
}

/** The answer to a question; throws a Refusal, also for a computation that is not worked out here. */
export function answer(asked: Question): Answer {
  const computed = Object.hasOwn(BOOK, asked.computation) ? BOOK[asked.computation] : undefined
  if (computed === undefined) throw new Refusal('computation', 'not_here')
  return computed(asked)
}
