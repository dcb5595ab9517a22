// The routes of calls by web push, as the office asks them.
import type { Transport } from './transport.ts'

export type CallsRow = {
  readonly device: string
  readonly runs: boolean
  readonly signs: boolean
  readonly trouble: string
  readonly trouble_ms: number
}

/** `contact_fault`: empty where calls go out; else missing, scheme, address or reserved. */
export type CallsNews = {
  readonly contact: string
  readonly contact_fault: '' | 'missing' | 'scheme' | 'address' | 'reserved'
  readonly devices: readonly CallsRow[]
}

export function calls(transport: Transport) {
  return {
    calls: () => transport.get<CallsNews>('/api/push/office'),
    setContact: (contact: string) => transport.post<CallsNews>('/api/push/contact', { contact }),
  }
}
