/** The sync's public face. */
export { fetchTransport } from './fetch_transport.ts'
export { startPairing } from './pairing.ts'
export { type SyncOptions, startSync } from './sync.ts'
export type * from './types.ts'
