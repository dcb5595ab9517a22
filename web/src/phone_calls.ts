// Composition of what calls this phone: fetched with its page, not with the first tick.
import { pushBrowser } from './device/push_browser.ts'
import { type Calls, startCalls } from './sync/calls.ts'
import { fetchTransport } from './sync/fetch_transport.ts'

export function phoneCalls(keep: Parameters<typeof startCalls>[2]): Calls {
  return startCalls(fetchTransport(), pushBrowser, keep)
}
