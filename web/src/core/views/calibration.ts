/** How long an instrument may still be trusted, and a lot still be used, by the day that is written for it. */

const DAY_MS = 24 * 3600 * 1000
export const SOON_DAYS = 30

export type Standing = 'good' | 'soon' | 'over' | 'unknown'

/** A day such as 2026-05-31 is good until it ends; days are compared as they are written, without a time zone. */
export function standingOf(day: string, today: string): Standing {
  if (day === '') return 'unknown'
  if (day < today) return 'over'
  return daysUntil(day, today) <= SOON_DAYS ? 'soon' : 'good'
}

/** Below 0 once it is over. */
export function daysUntil(day: string, today: string): number {
  return Math.round((Date.parse(day) - Date.parse(today)) / DAY_MS)
}

const RANK: { readonly [standing in Standing]: number } = { over: 0, soon: 1, unknown: 2, good: 3 }

/** What wants something done first, the earliest day first. */
export function byUrgency<T>(rows: readonly T[], dayOf: (row: T) => string, today: string): readonly T[] {
  const rank = (row: T): number => RANK[standingOf(dayOf(row), today)]
  return [...rows].sort((a, b) => rank(a) - rank(b) || (dayOf(a) < dayOf(b) ? -1 : 1))
}
