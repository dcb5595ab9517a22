// The heat run as its own silhouette on a steel edge: inked as far as it has come, a bar at now.
import type { JSX } from 'preact'
import { PART_ENDS } from '../../core/views/run_progress.ts'
import './heat_profile.css'

const { ramp, soak, release } = PART_ENDS
const W = 240
const H = 30
const TOP = 5
const EDGE = 25

/** Up along the ramp, level in the soak, down two steps in the release, then along the curve of cooling. */
const OUTLINE = [
  `M0 ${EDGE}`,
  `C${0.14 * W} ${TOP + 6} ${0.22 * W} ${TOP} ${ramp * W} ${TOP}`,
  `H${soak * W}`,
  `L${(soak + 0.09) * W} ${TOP + 7}`,
  `H${(soak + 0.13) * W}`,
  `L${release * W} ${TOP + 14}`,
  `Q${(release + 0.08) * W} ${EDGE - 1} ${W} ${EDGE}`,
].join('')

/** Beside the words that say the same; `progress` from 0 to 1. */
export function HeatProfile({ progress }: { progress: number }): JSX.Element {
  const x = progress * W
  return (
    <svg
      class="heat-profile"
      preserveAspectRatio="none"
      viewBox={`-2 0 ${W + 4} ${H}`}
      aria-hidden="true"
      focusable="false"
    >
      <clipPath id={`inked-${Math.round(x)}`}>
        <rect x="-2" y="0" width={x + 2} height={H} />
      </clipPath>
      <path class="profile-ink" d={`${OUTLINE}z`} clip-path={`url(#inked-${Math.round(x)})`} />
      <path class="profile-line" d={OUTLINE} />
      <path class="profile-edge" d={`M-2 ${EDGE}H${W + 2}`} />
      {Array.from({ length: 25 }, (_, i) => i).map((i) => (
        <path key={i} class="profile-edge" d={`M${i * 10} ${EDGE}v${i % 5 === 0 ? 5 : 3}`} />
      ))}
      <path class="profile-now" d={`M${x} 0V${EDGE + 4}`} />
    </svg>
  )
}
