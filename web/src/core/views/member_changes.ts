/** The members of two documents compared one by one: figures with their unit, lists by what came and went. */
import { dumps, type Json } from '../canonical.ts'

export type Members = { readonly [name: string]: unknown }

export type Shown =
  | { readonly as: 'nothing' }
  | { readonly as: 'words'; readonly words: string }
  | { readonly as: 'figure'; readonly value: number; readonly unit: string; readonly decimals: number }
  | { readonly as: 'time'; readonly seconds: number }
  | { readonly as: 'yes_no'; readonly yes: boolean }

/** A list's order counts: `before` and `after` are whole, what came and went is read from them. */
export type Change =
  | { readonly member: string; readonly as: 'one'; readonly before: Shown; readonly after: Shown }
  | {
      readonly member: string
      readonly as: 'list'
      readonly before: readonly string[]
      readonly after: readonly string[]
    }

export type Scale = { readonly unit?: string; readonly decimals?: number }

const SCALED: ReadonlySet<string> = new Set([
  'min',
  'max',
  'lagging_min',
  'leading_max',
  'cold_below',
  'metal_max',
  'neighbour_max',
  'lift_below',
  'setpoint',
])
const RATES: ReadonlySet<string> = new Set(['ramp_max', 'cooling_max'])
const KELVIN_A_MINUTE = 'K/min'

const textOf = (value: unknown): string => (value === undefined ? '' : dumps(value as Json))

/** Members that differ, in the order in which the newer document has them; `scale` is that of its figures. */
export function changesOf(before: Members, after: Members, scale: Scale): readonly Change[] {
  const names = [...new Set([...Object.keys(after), ...Object.keys(before)])]
  return names
    .filter((name) => textOf(before[name]) !== textOf(after[name]))
    .flatMap((name) => changeOf(name, before[name], after[name], scale))
}

function changeOf(member: string, before: unknown, after: unknown, scale: Scale): readonly Change[] {
  if (isList(before) || isList(after)) return [listChange(member, before, after, scale)]
  if (isObject(before) || isObject(after)) {
    return [listChange(member, pairsOf(before), pairsOf(after), scale)]
  }
  return [{ member, as: 'one', before: shownOf(member, before, scale), after: shownOf(member, after, scale) }]
}

const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value)
const isObject = (value: unknown): value is Members =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

function listChange(member: string, before: unknown, after: unknown, scale: Scale): Change {
  const words = (value: unknown): readonly string[] =>
    isList(value) ? value.map((one) => itemWords(member, one, scale)) : []
  return { member, as: 'list', before: words(before), after: words(after) }
}

const pairsOf = (value: unknown): readonly unknown[] =>
  isObject(value) ? Object.entries(value).map(([name, one]) => `${name}: ${plainWords(one)}`) : []

/** A plausible range is two figures; all other lists hold names, or things that have one. */
function itemWords(member: string, item: unknown, scale: Scale): string {
  if (member === 'plausible' && typeof item === 'number') return scaledWords(item, scale)
  return plainWords(item)
}

function scaledWords(value: number, { unit = '', decimals = 0 }: Scale): string {
  return `${(value / 10 ** decimals).toFixed(decimals)} ${unit}`.trim()
}

/** Told so that no two different things read alike: a name alone would hide what else differs. */
function plainWords(item: unknown): string {
  if (!isObject(item)) return isList(item) ? item.map(plainWords).join(', ') : String(item)
  const { id, name, ...rest } = item
  const head = [name ?? '', id === undefined || id === name ? '' : `(${String(id)})`]
  const more = Object.entries(rest).map(([key, value]) => `${key.replaceAll('_', ' ')} ${plainWords(value)}`)
  return [...head, ...more].filter((word) => word !== '').join(' ')
}

function shownOf(member: string, value: unknown, scale: Scale): Shown {
  if (value === undefined || value === '') return { as: 'nothing' }
  if (typeof value === 'boolean') return { as: 'yes_no', yes: value }
  if (typeof value !== 'number') return { as: 'words', words: String(value) }
  const { unit = '', decimals = 0 } = scale
  if (SCALED.has(member)) return { as: 'figure', value, unit, decimals }
  if (RATES.has(member)) return { as: 'figure', value, unit: KELVIN_A_MINUTE, decimals }
  if (member.endsWith('_s')) return { as: 'time', seconds: value }
  return { as: 'figure', value, unit: '', decimals: 0 }
}
