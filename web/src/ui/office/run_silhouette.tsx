// A heat run as its silhouette, filled to where it is: decoration, the words beside it say the same.
import type { JSX } from 'preact'
import { useId } from 'preact/hooks'
import { type RunSoFar, runProfile } from '../../core/views/run_profile.ts'

const WIDE = 164
const HIGH = 28
/** Ramp to 0.3 of the width, soak to 0.6, four steps of release to 0.85, cool-down to the end. */
const OUTLINE = 'M1 27C14 8 26 5 49 3H98V8H108V13H119V18H129V22H139C146 25 154 27 163 27'

export function RunSilhouette({ run, now_ms }: { run: RunSoFar; now_ms: number }): JSX.Element {
  const clip = useId()
  const at = 1 + (WIDE - 2) * runProfile(run, now_ms).share
  return (
    <svg class="o-silhouette" viewBox={`0 0 ${WIDE} ${HIGH}`} aria-hidden="true">
      <clipPath id={clip}>
        <rect width={at} height={HIGH} />
      </clipPath>
      <path class="o-silhouette-heat" d={`${OUTLINE}Z`} clip-path={`url(#${clip})`} />
      <path d={OUTLINE} fill="none" stroke="currentColor" stroke-width="1.5" />
      <path d={`M0 ${HIGH - 1}H${WIDE}`} stroke="currentColor" stroke-width="2" />
      <path d={`M${at} 0V${HIGH}`} stroke="currentColor" stroke-width="3" />
    </svg>
  )
}
