// Once a day, before the first act of a job, its standing conditions are looked at: when, and until when, the page stands.
import { signal } from '@preact/signals'
import { useEffect } from 'preact/hooks'
import type { Card } from '../../core/views/card.ts'
import { usePhone } from './context.ts'

type Look = 'open' | 'left'

/** By job and day: the page stands until it is left, also when its last question is answered. */
const looks = signal<Readonly<Record<string, Look>>>({})

/** Whether a condition that holds was last looked at before this day; the page itself says which. */
function isAsked({ state, steps, entries }: Card, midnight_ms: number): boolean {
  const each = steps.flatMap(({ method }) => method.conditions.filter((one) => one.asked_each_morning))
  return state.conditions.some(
    ({ id, on, by, asked }) =>
      on &&
      each.some((one) => one.id === id) &&
      [asked, ...by].every((hash) => (entries.get(hash)?.entry.at_ms ?? 0) < midnight_ms),
  )
}

/** How to leave the morning's page, while it stands; `here` is a page that it comes before. */
export function useMorning(card: Card, here: boolean): (() => void) | undefined {
  const { services } = usePhone()
  const midnight_ms = new Date(services.device.clock.now().at_ms).setHours(0, 0, 0, 0)
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
