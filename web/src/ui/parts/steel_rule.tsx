// The steps as graduations of a steel rule; decoration, the number beside it says the same.
import type { JSX } from 'preact'

export type Graduation = { done: boolean; hold: boolean; here: boolean; stageStart: boolean }

const HEIGHT = 24
const WIDTH = 356
/** Above this many steps thick graduations would run into each other. */
const MANY = 50
const STAGE_GAP = 1.8

/** Where each graduation stands over the whole rule: a stage's start leaves a gap. */
function positions(graduations: readonly Graduation[]): number[] {
  const gaps = graduations.map((one, index): number => (index === 0 ? 0 : one.stageStart ? STAGE_GAP : 1))
  const pitch =
    (WIDTH - 12) /
    Math.max(
      1,
      gaps.reduce((sum, gap) => sum + gap, 0),
    )
  let x = 6
  return gaps.map((gap) => {
    x += gap * pitch
    return x
  })
}

export function SteelRule({ graduations }: { graduations: readonly Graduation[] }): JSX.Element {
  const at = positions(graduations)
  const thick = graduations.length > MANY ? 2.5 : 4
  return (
    <svg class="steel" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
      <path d={`M0 ${HEIGHT - 1}H${WIDTH}`} stroke="currentColor" stroke-width="2" />
      {graduations.map((graduation, index) => (
        <Stroke key={at[index]} x={at[index] ?? 0} graduation={graduation} thick={thick} />
      ))}
    </svg>
  )
}

function Stroke(props: { x: number; graduation: Graduation; thick: number }): JSX.Element {
  const { x, graduation, thick } = props
  const { done, hold, here } = graduation
  const top = hold ? 6 : done ? 11 : 17
  const width = done ? thick : 1.5
  return (
    <>
      <path d={`M${x} ${HEIGHT}V${here ? 4 : top}`} stroke="currentColor" stroke-width={here ? 4 : width} />
      {hold && (
        <path d={`M${x - thick} ${top}H${x + thick}`} stroke="currentColor" stroke-width={done ? thick : 2} />
      )}
      {here && <path d={`M${x - 6} 0h12l-6 10z`} fill="currentColor" />}
    </>
  )
}
