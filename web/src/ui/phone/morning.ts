// Once a day, before the first act of a job, its standing conditions are looked at: when, and until when, the page stands.
import { signal } from '@preact/signals'
import { useEffect } from 'preact/hooks'
import type { Card } from '../../core/views/card.ts'
import { askedThisMorning, midnightBefore } from '../../core/views/morning_view.ts'
import { usePhone } from './context.ts'

type Look = 'open' | 'left'

/** By job and day: the page stands until it is left, also when its last question is answered. */
const looks = signal<Readonly<Record<string, Look>>>({})

/** How to leave the morning's page, while it stands; `here` is a page that it comes before. */
export function useMorning(card: Card, here: boolean): (() => void) | undefined {
  const { services } = usePhone()
  const midnight_ms = midnightBefore(services.device.clock.now().at_ms)
  const key = `${card.job} ${midnight_ms}`
  const set = (look: Look) => {
    looks.value = { ...looks.value, [key]: look }
  }
  const asked = here && looks.value[key] === undefined && askedThisMorning(card, midnight_ms).length > 0
  useEffect(() => {
    if (asked) set('open')
  }, [asked])
  return here && (asked || looks.value[key] === 'open') ? () => set('left') : undefined
}
