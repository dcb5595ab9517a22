// Once a day, before the first act of a job, its standing conditions are looked at: when, and until when, the page stands.
import { signal } from '@preact/signals'
import { useCallback, useEffect, useState } from 'preact/hooks'
import { type Card, methodsOf } from '../../core/views/card.ts'
import { usePhone } from './context.ts'

type Look = 'open' | 'left'

/** By job and day: the page stands until it is left, also when its last question is answered. */
const looks = signal<Readonly<Record<string, Look>>>({})

/** Whether a condition that holds was last looked at before this day; the page itself says which. */
function isAsked(card: Card, midnight_ms: number): boolean {
  const { state, entries } = card
  const each = methodsOf(card).flatMap(({ conditions }) => conditions.filter((one) => one.asked_each_morning))
  return state.conditions.some(
    ({ id, on, by, asked }) =>
      on &&
      each.some((one) => one.id === id) &&
      [asked, ...by].every((hash) => (entries.get(hash)?.entry.at_ms ?? 0) < midnight_ms),
  )
}

const LOOKED_AT_EVERY_MS = 30_000

/** The midnight before now; a page that lies open through it, or wakes after it, is drawn again. */
function useMidnight(now: () => number): number {
  const midnight_ms = new Date(now()).setHours(0, 0, 0, 0)
  const [, drawn] = useState(midnight_ms)
  useEffect(() => {
    const look = () => drawn(new Date(now()).setHours(0, 0, 0, 0))
    const timer = setInterval(look, LOOKED_AT_EVERY_MS)
    document.addEventListener('visibilitychange', look)
    return () => {
      clearInterval(timer)
      document.removeEventListener('visibilitychange', look)
    }
  }, [now])
  return midnight_ms
}

/** How to leave the morning's page, while it stands; `here` is a page that it comes before. */
export function useMorning(card: Card, here: boolean): (() => void) | undefined {
  const { clock } = usePhone().services.device
  const midnight_ms = useMidnight(useCallback(() => clock.now().at_ms, [clock]))
  const key = `${card.job} ${midnight_ms}`
  const set = (look: Look) => {
    looks.value = { ...looks.value, [key]: look }
  }
  const asked = here && looks.value[key] === undefined && isAsked(card, midnight_ms)
  useEffect(() => {
    if (asked) set('open')
  }, [asked])
  return here && (asked || looks.value[key] === 'open') ? () => set('left') : undefined
}
