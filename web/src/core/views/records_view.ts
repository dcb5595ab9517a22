/** My records: what one person recorded in a job, where each is, and whether it still stands. */
import type { Entry } from '../entries.ts'
import { remarkOn } from './answers.ts'
import { bodyOf, type Card, type Known } from './card.ts'

export type RecordPlace = 'phone' | 'office' | 'filed' | 'aside'

export type RecordView = {
  readonly known: Known
  readonly place: RecordPlace
  /** The reason of the strike that crosses it out. */
  readonly struck: string | undefined
  readonly sentBack: string
  readonly asideCode: string
  readonly canStrike: boolean
}

/** A person's entries, newest first; a strike is shown with what it strikes, not by itself. */
export function recordsOf(card: Card, person: string): readonly RecordView[] {
  return [...card.entries.values()]
    .filter(({ entry }) => entry.by === person && entry.kind !== 'strike')
    .sort((a, b) => b.order - a.order)
    .map((known) => recordView(card, known))
}

function recordView(card: Card, known: Known): RecordView {
  const { hash } = known.entry
  const strikes = card.state.struck.find((one) => one.target === hash)?.by ?? []
  const reason = strikes.map((by) => bodyOf(card, by, 'strike')?.reason).find((one) => one !== undefined)
  const struck = strikes.length > 0 ? (reason ?? '') : undefined
  const place = placeOfRecord(card, known)
  return {
    known,
    place,
    struck,
    sentBack: remarkOn(card, hash),
    asideCode: place === 'aside' ? asideCodeOf(card, known) : '',
    canStrike: struck === undefined && place !== 'aside',
  }
}

function placeOfRecord(card: Card, known: Known): RecordPlace {
  if (card.state.aside.includes(known.entry.hash)) return 'aside'
  if (known.where === 'phone') return 'phone'
  return isFiled(card, known.entry) ? 'filed' : 'office'
}

function isFiled(card: Card, entry: Entry): boolean {
  return card.state.job.filed.some((hash) =>
    bodyOf(card, hash, 'file')?.heads.some((head) => head.device === entry.device && head.seq >= entry.seq),
  )
}

function asideCodeOf(card: Card, known: Known): string {
  if (known.fate?.fate === 'set_aside') return known.fate.code
  for (const { entry } of card.entries.values()) {
    if (entry.kind === 'aside' && entry.body.hashes.includes(known.entry.hash)) return entry.body.code
  }
  return ''
}

export type WhereCounts = { readonly [P in RecordPlace]: number }

export function whereCounts(records: readonly RecordView[]): WhereCounts {
  const counts = { phone: 0, office: 0, filed: 0, aside: 0 }
  for (const record of records) counts[record.place] += 1
  return counts
}

/** Whether one may strike it: one's own, or any as the office. */
export function mayStrike(
  entry: Entry,
  me: { readonly by: string; readonly as: readonly string[] },
): boolean {
  return entry.kind !== 'strike' && (entry.by === me.by || me.as.includes('office'))
}
