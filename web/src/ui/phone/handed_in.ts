// When this phone's waiting records were last given out as a file, and how many: kept, for the office confirms them later.
import { useSignal } from '@preact/signals'
import { useEffect } from 'preact/hooks'
import type { Store } from '../../store/types.ts'
import { usePhone } from './context.ts'

export type HandedIn = { readonly at_ms: number; readonly count: number }

const KEPT_AS = 'handed_in'

export async function keepHandedIn(store: Store, { at_ms, count }: HandedIn): Promise<void> {
  await store.setSetting(KEPT_AS, `${at_ms} ${count}`)
}

export async function readHandedIn(store: Store): Promise<HandedIn | undefined> {
  const kept = await store.setting(KEPT_AS)
  const [at_ms = 0, count = 0] = typeof kept === 'string' ? kept.split(' ').map(Number) : []
  return at_ms > 0 && count > 0 ? { at_ms, count } : undefined
}

export function useHandedIn(): HandedIn | undefined {
  const { store } = usePhone().services
  const handed = useSignal<HandedIn | undefined>(undefined)
  useEffect(() => {
    void readHandedIn(store).then((read) => {
      handed.value = read
    })
  }, [store, handed])
  return handed.value
}
