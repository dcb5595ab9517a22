/** What calls this phone by web push while its app is closed: asked at the office, armed in this browser. */
import { type ReadonlySignal, signal } from '@preact/signals'
import type { Answer, Transport } from './types.ts'
import { TransportFault } from './types.ts'

/** What a phone may be called for. */
export type Wanted = { readonly runs: boolean; readonly signs: boolean }

/**
 * `unknown`: not asked yet. `offline`: the shop's server does not answer. `contact`: the office has given no
 * address for calls, so none goes out. `off`: this phone asked for nothing. `lost`: the office would call, and
 * this browser has forgotten it. `armed`: calls go out, so far as anybody here can know.
 */
export type CallsAt = 'unknown' | 'offline' | 'contact' | 'off' | 'lost' | 'armed'

export type CallsView = {
  readonly at: CallsAt
  readonly wanted: Wanted
  /** Why the newest call was refused on its way; '' where none was. */
  readonly trouble: string
  /** What the last tap here met: '' for nothing, else a code or the server's own sentence. */
  readonly met: '' | 'called' | 'denied' | 'not_given' | 'offline' | { readonly message: string }
}

/** `not_installed`: this system calls installed apps only. `denied`: notices were forbidden in the settings. */
export type PushReach = 'yes' | 'not_installed' | 'not_available' | 'denied'

export type BrowserKeys = { readonly endpoint: string; readonly p256dh: string; readonly auth: string }

/** The browser's half. `subscribe` asks for permission: call it in a tap. */
export interface PushBrowser {
  reach(): PushReach
  /** The subscription that is there, undefined where there is none for this key. */
  current(publicKey: string): Promise<BrowserKeys | undefined>
  /** Undefined: not permitted. Rejects where the browser's push service gives none. */
  subscribe(publicKey: string): Promise<BrowserKeys | undefined>
  unsubscribe(): Promise<void>
}

export interface Calls {
  readonly view: ReadonlySignal<CallsView>
  reach(): PushReach
  /** Asks the office and looks into the browser; never rejects. */
  look(): Promise<void>
  /** On a tap: nothing wanted takes it all back. */
  want(wanted: Wanted): Promise<void>
  /** A call of its own, now. */
  rehearse(): Promise<void>
}

type News = {
  readonly public_key: string
  readonly contact_fault: string
  readonly wanted: (Wanted & { readonly trouble: string }) | null
}

const NOTHING: Wanted = { runs: false, signs: false }
const EMPTY: CallsView = { at: 'unknown', wanted: NOTHING, trouble: '', met: '' }

/** `keep` gets what is armed, so that other pages can say it without a network. */
export function startCalls(
  transport: Transport,
  browser: PushBrowser,
  keep: (armed: Wanted) => Promise<void>,
): Calls {
  const view = signal(EMPTY)
  const ask = async (method: 'GET' | 'POST' | 'DELETE', path: string, json?: unknown) =>
    bodyOf(await transport.send({ method, path, ...(json === undefined ? {} : { json }) }))
  const tell = async (news: News, met: CallsView['met'] = '') => {
    view.value = { ...(await viewOf(news)), met }
    await keep(view.value.at === 'armed' ? view.value.wanted : NOTHING)
  }
  const viewOf = async ({ public_key, contact_fault, wanted }: News): Promise<CallsView> => {
    const told = { wanted: wanted ?? NOTHING, trouble: wanted?.trouble ?? '', met: '' } as const
    if (contact_fault !== '') return { ...told, at: 'contact' }
    if (wanted === null) return { ...told, at: 'off' }
    return { ...told, at: (await browser.current(public_key)) === undefined ? 'lost' : 'armed' }
  }
  const heard = async (act: () => Promise<void>) => {
    try {
      await act()
    } catch (error) {
      const away = error instanceof TransportFault
      const at = away && view.value.at === 'unknown' ? 'offline' : view.value.at
      view.value = { ...view.value, at, met: away ? 'offline' : { message: messageOf(error) } }
    }
  }
  const arm = async (wanted: Wanted) => {
    const news = (await ask('GET', '/api/push')) as News
    const keys = await given(browser, news.public_key)
    if (keys === 'not_given' || keys === undefined)
      return tell(news, keys ?? (browser.reach() === 'denied' ? 'denied' : 'not_given'))
    await tell((await ask('POST', '/api/push', { ...keys, ...wanted })) as News)
  }
  const disarm = async () => {
    await ask('DELETE', '/api/push')
    await browser.unsubscribe()
    await tell((await ask('GET', '/api/push')) as News)
  }
  const rehearse = async () => {
    const { cause } = (await ask('POST', '/api/push/rehearsal', {})) as { cause: string }
    await tell((await ask('GET', '/api/push')) as News, cause === '' ? 'called' : { message: cause })
  }
  return {
    view,
    reach: browser.reach,
    look: () => heard(async () => tell((await ask('GET', '/api/push')) as News)),
    want: (wanted) => heard(() => (wanted.runs || wanted.signs ? arm(wanted) : disarm())),
    rehearse: () => heard(rehearse),
  }
}

/** The browser's push service may be away or turned off: that is no fault of the shop's. */
async function given(browser: PushBrowser, key: string): Promise<BrowserKeys | undefined | 'not_given'> {
  try {
    return (await browser.current(key)) ?? (await browser.subscribe(key))
  } catch {
    return 'not_given'
  }
}

function bodyOf({ status, bytes }: Answer): unknown {
  const body = JSON.parse(new TextDecoder().decode(bytes)) as { message?: string }
  if (status >= 400) throw new Error(body.message ?? String(status))
  return body
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
