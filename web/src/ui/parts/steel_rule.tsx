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
    return Math.round(x * 10) / 10 // a path of a hundred graduations is read anew with each act: short ones
  })
}

/** One path for all of a width: a rule of a hundred steps is drawn anew with each act. */
export function SteelRule({ graduations }: { graduations: readonly Graduation[] }): JSX.Element {
  const thick = graduations.length > MANY ? 2.5 : 4
  const at = positions(graduations)
  const all = graduations.map((one, index) => ({ ...one, x: at[index] ?? 0 }))
  const d = (drawn: (one: Placed) => string, ...are: ((one: Placed) => boolean)[]) =>
    all
      .filter((one) => are.every((is) => is(one)))
      .map(drawn)
      .join('')
  const bar = (one: Placed) => `M${one.x - thick} ${topOf(one)}H${one.x + thick}`
  const here = all.find((one) => one.here)
  return (
    <svg class="steel" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
      <Lines d={`M0 ${HEIGHT - 1}H${WIDTH}${d(bar, isHold, isOpen)}`} width={2} />
      <Lines d={d(upright, isElsewhere, isOpen)} width={1.5} />
      <Lines d={d(upright, isElsewhere, isDone) + d(bar, isHold, isDone)} width={thick} />
      {here && <Lines d={`M${here.x} ${HEIGHT}V4`} width={4} />}
      {here && <path d={`M${here.x - 6} 0h12l-6 10z`} fill="currentColor" />}
    </svg>
  )
}

const isDone = (one: Graduation) => one.done
const isOpen = (one: Graduation) => !one.done
const isHold = (one: Graduation) => one.hold
const isElsewhere = (one: Graduation) => !one.here

type Placed = Graduation & { readonly x: number }

function topOf({ done, hold }: Pick<Graduation, 'done' | 'hold'>): number {
  return hold ? 6 : done ? 11 : 17
}

function upright(one: Placed): string {
  return `M${one.x} ${HEIGHT}V${topOf(one)}`
}

function Lines({ d, width }: { d: string; width: number }): JSX.Element | null {
  return d === '' ? null : <path d={d} stroke="currentColor" stroke-width={width} />
}
