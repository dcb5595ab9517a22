// The routes of the shop's time zone, in which reports say their times.
import type { Transport } from './transport.ts'

/** A name of the IANA time zone database; empty: times are UTC. */
export type TimeZoneToday = { readonly time_zone: string }

export function timeZone(transport: Transport) {
  return {
    timeZone: () => transport.get<TimeZoneToday>('/api/time_zone'),
    setTimeZone: (time_zone: string) => transport.post<TimeZoneToday>('/api/time_zone', { time_zone }),
  }
}
