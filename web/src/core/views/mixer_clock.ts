/**
 * The mixer's gel clock: since it was put down, against the time after which what stands in it sets.
 *
 * It runs beside the open time and never touches it. Notes say what was done with the mixer; the newest one by the
 * clocks counts. The gel time is the supplier's sheet's, else the method's; where neither says one it only counts.
 */
import { readClock } from '../computations/bond_clock.ts'
import { MS_PER_MIN, numberOf } from '../computations/figures.ts'
import { figureOf, type MaterialSheet } from '../computations/sheets.ts'
import type { Entry } from '../entries.ts'
import { apart } from './apart.ts'
import { type Card, type Known, methodsOf } from './card.ts'

export type MixerAct = 'stands' | 'flows' | 'changed'
export type MixerClock = {
  /** Since when it stands; undefined while it flows, and before anybody said a word of it. */
  readonly stands: Known | undefined
  /** Undefined where nobody has given it. */
  readonly gel_ms: number | undefined
  readonly sheet: MaterialSheet | undefined
  /** Flowed again after it had stood longer than that. */
  readonly late: readonly { readonly known: Known; readonly stood_ms: number }[]
}
export type MixerStand = {
  readonly is: 'standing' | 'ends_outside' | 'setting' | 'set' | 'counting'
  readonly ms: number
}

const GEL_FACT = 'adhesive.mixer_gel_minutes'
const GEL_FIGURE = 'mixer_gel_time'
const ADHESIVE = 'adhesive'
const WARN_MS = 2 * MS_PER_MIN

type Noted = { readonly known: Known; readonly act: MixerAct }

export function mixerOf(card: Card): MixerClock {
  const noted = notedOf(card)
  const { gel_ms, sheet } = gelOf(card)
  const newest = noted.at(-1)
  const late = noted.flatMap(({ known, act }, place) => {
    const before = noted[place - 1]
    if (act !== 'flows' || before?.act !== 'stands' || gel_ms === undefined) return []
    const stood_ms = apart(before.known, known)
    return stood_ms > gel_ms ? [{ known, stood_ms }] : []
  })
  return { stands: newest?.act === 'stands' ? newest.known : undefined, gel_ms, sheet, late }
}

/**
 * Until it sets, or since it has; without a gel time since it stands. `step_ms` is what the step at hand still takes: it
 * would end outside where the mixer sets before it is through.
 */
export function mixerStand({ gel_ms }: MixerClock, stood_ms: number, step_ms = 0): MixerStand {
  if (gel_ms === undefined) return { is: 'counting', ms: stood_ms }
  const { left_ms, endsOutside } = readClock({ min_ms: 0, max_ms: gel_ms }, stood_ms, step_ms)
  if (left_ms <= 0) return { is: 'set', ms: stood_ms - gel_ms }
  if (left_ms <= WARN_MS) return { is: 'setting', ms: left_ms }
  return { is: endsOutside ? 'ends_outside' : 'standing', ms: left_ms }
}

function notedOf(card: Card): readonly Noted[] {
  const dead = new Set([...card.state.aside, ...card.state.struck.map((strike) => strike.target)])
  const noted = [...card.entries.values()].flatMap((known): Noted[] => {
    const act = actOf(known.entry)
    return act === undefined || dead.has(known.entry.hash) ? [] : [{ known, act }]
  })
  const [first] = noted
  if (first === undefined) return noted
  const at = (one: Noted): number => apart(first.known, one.known)
  return noted.sort((a, b) => at(a) - at(b) || a.known.order - b.known.order)
}

function actOf(entry: Entry): MixerAct | undefined {
  return entry.kind === 'note' ? entry.body.mixer : undefined
}

function gelOf(card: Card): Pick<MixerClock, 'gel_ms' | 'sheet'> {
  const sheet = card.sheets?.find((one) => one.material === ADHESIVE)
  const figure = sheet && figureOf(sheet, GEL_FIGURE)
  if (figure !== undefined) return { gel_ms: numberOf(figure) * MS_PER_MIN, sheet }
  const facts = methodsOf(card).flatMap((method) => method.facts ?? [])
  const fact = facts.filter((one) => one.name === GEL_FACT).at(-1)
  const gel_ms = fact && 'value' in fact ? numberOf(fact) * MS_PER_MIN : undefined
  return { gel_ms, sheet: undefined }
}
