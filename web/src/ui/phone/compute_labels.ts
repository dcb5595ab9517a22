// What groups and points are called, by their ids.
import type { MethodDoc } from '../../core/method.ts'
import type { StepPlace } from '../../core/views/card.ts'

/** A method never changes: its names are collected once. */
const NAMES = new WeakMap<MethodDoc, ReadonlyMap<string, string>>()

export function labelsOf({ method }: StepPlace): (id: string) => string {
  const names = NAMES.get(method) ?? namesIn(method)
  NAMES.set(method, names)
  return (id) => names.get(id) ?? id
}

function namesIn(method: MethodDoc): ReadonlyMap<string, string> {
  const named = [
    ...method.groups,
    ...(method.point_sets ?? []).flatMap((set) => set.points),
    ...method.stages
      .flatMap((stage) => stage.steps)
      .flatMap((step) => step.asks.flatMap((ask) => (ask.kind === 'reading' ? ask.points : []))),
  ]
  return new Map(named.map((one) => [one.id, one.name]))
}
