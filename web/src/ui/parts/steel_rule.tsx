// The steps as graduations of a steel rule; decoration, the number beside it says the same.
import type { JSX } from 'preact'

export type Graduation = { done: boolean; hold: boolean; here: boolean; stageStart: boolean }

const HEIGHT = 24
const PITCH = 10

/** Where each graduation stands: a stage's start leaves a gap. */
function positions(graduations: readonly Graduation[]): number[] {
  let x = 4
  return graduations.map((graduation, index) => {
    x += index === 0 ? 0 : graduation.stageStart ? 1.8 * PITCH : PITCH
    return x
  })
}

export function SteelRule({ graduations }: { graduations: readonly Graduation[] }): JSX.Element {
  const at = positions(graduations)
  const width = (at.at(-1) ?? 0) + 4
  return (
    <svg class="steel" viewBox={`0 0 ${width} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
      <path
        d={`M0 ${HEIGHT - 1}H${width}`}
        stroke="currentColor"
        stroke-width="2"
        vector-effect="non-scaling-stroke"
      />
      {graduations.map((graduation, index) => (
        <Stroke key={at[index]} x={at[index] ?? 0} graduation={graduation} />
      ))}
    </svg>
  )
}

function Stroke({ x, graduation }: { x: number; graduation: Graduation }): JSX.Element {
  const { done, hold, here } = graduation
  const top = hold ? 6 : done ? 11 : 17
  const width = done ? 4 : 1.5
  return (
    <>
      <path
        d={`M${x} ${HEIGHT}V${here ? 4 : top}`}
        stroke="currentColor"
        stroke-width={here ? 4 : width}
        vector-effect="non-scaling-stroke"
      />
      {hold && (
        <path
          d={`M${x - 2} ${top}H${x + 2}`}
          stroke="currentColor"
          stroke-width={done ? 4 : 2}
          vector-effect="non-scaling-stroke"
        />
      )}
      {here && <path d={`M${x - 4} 0h8l-4 8z`} fill="currentColor" />}
    </>
  )
}
