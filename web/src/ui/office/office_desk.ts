// What the office's components are given: the desk, and the names of people and devices.
import { createContext } from 'preact'
import { useContext, useEffect, useMemo } from 'preact/hooks'
import type { Answer } from '../../office_api/answer.ts'
import type { Desk } from '../../office_api/desk.ts'
import type { Feed, Seen } from '../../office_api/feed.ts'
import type { DeviceRow, PersonRow } from '../../office_api/rows.ts'
import { w } from '../words/en.ts'
import { o } from '../words/office_en.ts'

export type Shop = {
  readonly people: readonly PersonRow[]
  readonly devices: readonly DeviceRow[]
  /** False until both lists have been heard: until then nobody is called unknown. */
  readonly heard: boolean
}

export type OfficeView = {
  readonly desk: Desk
  readonly demo: boolean
  readonly shop: Shop
  go(path: string): void
  refreshShop(): void
}

const Office = createContext<OfficeView | undefined>(undefined)
export const OfficeProvider = Office.Provider

export function useOffice(): OfficeView {
  const office = useContext(Office)
  if (office === undefined) throw new Error('an office screen stands outside the office')
  return office
}

/** A feed that lives as long as the component and starts anew when `key` changes. */
export function useFeed<T>(open: () => Feed<T>, key: string): { seen: Seen<T>; refresh: () => void } {
  const feed = useMemo(open, [key])
  useEffect(() => () => feed.stop(), [feed])
  return { seen: feed.seen.value, refresh: () => void feed.refresh() }
}

/** Like `useFeed`, for a route of the desk. */
export function useRoute<T>(load: () => Promise<Answer<T>>, every_ms: number, key: string) {
  const { desk } = useOffice()
  return useFeed(() => desk.watch(load, every_ms, key), key)
}

const NIL = '00000000-0000-0000-0000-000000000000'

export function personName(shop: Shop, person: string): string {
  if (person === NIL || person === '' || !shop.heard) return ''
  return shop.people.find((one) => one.person === person)?.name ?? w.common.unknownPerson
}

/** The phone's name; what no device list has is the server itself. */
export function deviceName(shop: Shop, device: string): string {
  if (!shop.heard) return ''
  return shop.devices.find((one) => one.device === device)?.name ?? o.job.timeLine.server
}
