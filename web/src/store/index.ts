/** The store's public face. */
export { StoreFault } from './fault.ts'
export { browserMarker, memoryMarker } from './marker.ts'
export { openStore, type PhoneStore } from './phone_store.ts'
export { beginNewStore, storeName } from './store_name.ts'
export type * from './types.ts'
