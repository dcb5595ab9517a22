/** A question of a step: the computation's inputs by name, and the things of the method that it is about. */
import type { Input, InputKind, InputOf, Quantity } from './inputs.ts'
import { Refusal } from './shapes.ts'

export type Group = { readonly id: string; readonly positions: readonly string[] }
export type Place = { readonly id: string; readonly at_mm: readonly [x: number, y: number, z: number] }
type Quantities = { readonly [name: string]: Omit<Quantity, 'kind'> }

/** An input that was not asked is not in `inputs`. */
export type Question = {
  readonly computation: string
  readonly inputs: { readonly [name: string]: Input }
  readonly groups?: readonly Group[]
  readonly places?: readonly Place[]
  readonly settings?: Quantities
  readonly facts?: Quantities
  readonly damaged?: readonly string[]
  readonly asked_at_ms?: number
  /** Every reading of the coldest place since the start, in order, in that input's scale. */
  readonly log?: readonly (readonly [at_ms: number, value: number])[]
}

/** The input of that name and kind, or undefined where there is none. */
export function find<K extends InputKind>(asked: Question, name: string, kind: K): InputOf<K> | undefined {
  const found = asked.inputs[name]
  return found?.kind === kind ? (found as InputOf<K>) : undefined
}

/** The same; a Refusal where it is not there or is something else. */
export function want<K extends InputKind>(asked: Question, name: string, kind: K): InputOf<K> {
  const found = find(asked, name, kind)
  if (found === undefined) throw new Refusal(name, 'not_there')
  return found
}

export function quantity(asked: Question, name: string): Quantity {
  return want(asked, name, 'quantity')
}

export type Measured = ReadonlyMap<string, Omit<Quantity, 'kind'>>

/** Each point's reading; a Refusal where there is none. */
export function points(asked: Question, name: string): Measured {
  const found = findPoints(asked, name)
  if (found === undefined || found.size === 0) throw new Refusal(name, 'not_there')
  return found
}

export function findPoints(asked: Question, name: string): Measured | undefined {
  const found = find(asked, name, 'points')
  if (found === undefined) return undefined
  const { unit, decimals } = found
  return new Map(found.at.map(([point, value]) => [point, { value, unit, decimals }]))
}

/** A word of the method, with blanks for its underscores; '' where it says none. */
export function word(asked: Question, name: string): string {
  return find(asked, name, 'word')?.text.replaceAll('_', ' ') ?? ''
}

/** Quantity, or the readings of several points: whichever the method names. */
export function oneOrMore(asked: Question, name: string): readonly Omit<Quantity, 'kind'>[] {
  const many = findPoints(asked, name)
  return many === undefined ? [quantity(asked, name)] : [...many.values()]
}
