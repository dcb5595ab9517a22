/**
 * Body points against their nominal places, and against themselves before, both by rigid best fit.
 *
 * What the fit takes away is how the body stood under the measuring system; what it leaves is how it changed its
 * shape.
 */
import type { ResultValue } from '../entries.ts'
import { exact, figure, isOver, numberOf } from './figures.ts'
import { haveSamePoints } from './gap_and_step.ts'
import { findPoints, points, type Question, quantity } from './question.ts'
import { type Point, type Points3, type RigidFit, rigidFit } from './rigid_fit.ts'
import { type Answer, type Line, line, Refusal, verdictOf } from './shapes.ts'

const AXES = ['dx', 'dy', 'dz'] as const
const MM = 2

export function bestFit(asked: Question): Answer {
  const { nominal, now, fit } = fitOf(asked)
  const before = findPoints(asked, 'before_dx') && measured(asked, nominal, 'before_')
  const moved = before && fitted(before, now)
  const residuals = named('residual_', fit)
  const largest = largestOf('largest_residual', fit)
  const lines = [
    ...(fit.nearALine ? [line('near_a_line')] : []),
    ...(fit.mirrored ? [line('mirrored')] : []),
    ...over(asked, largest, fit, 'residual_over'),
    ...(moved === undefined ? [] : over(asked, largestOf('largest_moved', moved), moved, 'moved_over')),
  ]
  const values = [
    largest,
    figure('rms', rms([...fit.lengths.values()]), 'mm', MM),
    figure('turned', fit.turned_deg, 'deg', 3),
    figure('largest_deviation', largestApart(nominal, now), 'mm', MM),
    ...residuals,
    ...(moved === undefined ? [] : [largestOf('largest_moved', moved), ...named('moved_', moved)]),
  ]
  return { model: 'best-fit-1', values, verdict: verdictOf(lines), lines, sources: ['kabsch'] }
}

/** The fit to the nominal places, as it is also drawn. */
export function fitOf(asked: Question): {
  readonly nominal: Points3
  readonly now: Points3
  readonly fit: RigidFit
} {
  const nominal: Points3 = new Map((asked.places ?? []).map(({ id, at_mm }) => [id, at_mm]))
  if (nominal.size === 0) throw new Refusal('places', 'not_there')
  const now = measured(asked, nominal, '')
  return { nominal, now, fit: fitted(nominal, now) }
}

function measured(asked: Question, nominal: Points3, before: string): Points3 {
  const axes = AXES.map((axis) => points(asked, `${before}${axis}`))
  if (axes.some((axis) => !haveSamePoints(axis, nominal))) {
    throw new Refusal(`${before}dx`, 'other_points')
  }
  const off = (place: number, name: string) => {
    const found = axes[place]?.get(name)
    return found === undefined ? 0 : numberOf(found)
  }
  return new Map(
    [...nominal].map(([name, [x, y, z]]) => [name, [x + off(0, name), y + off(1, name), z + off(2, name)]]),
  )
}

function fitted(first: Points3, second: Points3): RigidFit {
  const fit = rigidFit(first, second)
  if (fit === undefined) throw new Refusal('places', 'on_a_line')
  return fit
}

function named(prefix: string, { lengths }: RigidFit): readonly ResultValue[] {
  return [...lengths].map(([name, mm]) => figure(`${prefix}${name}`, mm, 'mm', MM))
}

function largestOf(name: string, { lengths }: RigidFit): ResultValue {
  return figure(name, Math.max(...lengths.values()), 'mm', MM)
}

function largestApart(nominal: Points3, now: Points3): number {
  return Math.max(...[...nominal].map(([name, at]) => apart(at, now.get(name) ?? at)))
}

function apart(first: Point, second: Point): number {
  return Math.hypot(first[0] - second[0], first[1] - second[1], first[2] - second[2])
}

function rms(lengths: readonly number[]): number {
  return Math.sqrt(lengths.reduce((sum, mm) => sum + mm * mm, 0) / lengths.length)
}

function over(asked: Question, largest: ResultValue, { lengths }: RigidFit, code: string): readonly Line[] {
  const allowed = quantity(asked, 'largest_allowed')
  const at = [...lengths]
    .filter(([name, mm]) => isOver(figure(name, mm, 'mm', MM), allowed))
    .map(([name]) => name)
  const limit = exact('allowed', allowed.value, allowed.unit, allowed.decimals)
  return at.length === 0 ? [] : [line(code, 'stop', at, [largest, limit])]
}
