// The office's desk: who is signed in, the api with one eye on lost sign-ins, and feeds for the screens.
import { type ReadonlySignal, signal } from '@preact/signals'
import type { JobLog } from '../core/views/office_log.ts'
import type { Answer } from './answer.ts'
import { type OfficeApi, openOfficeApi } from './client.ts'
import { type Beat, type Feed, openFeed, type Seen } from './feed.ts'
import { jobLoader } from './job_feed.ts'
import type { Me } from './rows.ts'
import { type Fetch, openTransport, type Transport } from './transport.ts'

export type DoorState =
  | { readonly at: 'looking' }
  | { readonly at: 'silent' }
  | { readonly at: 'out'; readonly ended: boolean; readonly demo: boolean }
  | { readonly at: 'in'; readonly person: string; readonly name: string; readonly demo: boolean }

export type Desk = {
  readonly api: OfficeApi
  readonly beat: Beat
  readonly door: ReadonlySignal<DoorState>
  look(): Promise<void>
  signIn(name: string, password: string): Promise<Answer<unknown>>
  signOut(): Promise<void>
  /** Gives up a sign-in that has ended: the pages go, and the sign-in is asked for. */
  leave(): void
  /** `key` names the route: a page that is opened again shows at once what it showed before. */
  watch<T>(load: () => Promise<Answer<T>>, every_ms: number, key: string): Feed<T>
  watchJob(job: string): Feed<JobLog>
}

/** How often an open page asks. */
export const BOARD_EVERY_MS = 4000
export const JOB_EVERY_MS = 3000

function doorOf(answer: Answer<Me>): DoorState {
  if (answer.kind !== 'value')
    return { at: answer.kind === 'refused' ? 'out' : 'silent', ended: false, demo: false }
  const { office, demo = false } = answer.value
  return office ? { at: 'in', ...office, demo } : { at: 'out', ended: false, demo }
}

// Every answer passes here once: a 401 to somebody who was signed in means that the sign-in has ended.
function watched(transport: Transport, onEnded: () => void): Transport {
  const look = async <T>(asked: Promise<Answer<T>>): Promise<Answer<T>> => {
    const answer = await asked
    if (answer.kind === 'refused' && answer.refusal.status === 401) onEnded()
    return answer
  }
  return {
    get: (url, stop) => look(transport.get(url, stop)),
    getText: (url) => look(transport.getText(url)),
    getUnpacked: (url) => look(transport.getUnpacked(url)),
    post: (url, body, stop) => look(transport.post(url, body, stop)),
    postBytes: (url, bytes, stop) => look(transport.postBytes(url, bytes, stop)),
    remove: (url) => look(transport.remove(url)),
  }
}

export function openDesk(fetching: Fetch, beat: Beat): Desk {
  const door = signal<DoorState>({ at: 'looking' })
  const onEnded = (): void => {
    if (door.value.at === 'in') door.value = { at: 'out', ended: true, demo: door.value.demo }
  }
  const api = openOfficeApi(watched(openTransport(fetching), onEnded))
  const look = async (): Promise<void> => {
    door.value = doorOf(await api.me())
  }
  const kept = new Map<string, Seen<unknown>>()
  const loaders = new Map<string, () => Promise<Answer<JobLog>>>()
  const watch = <T>(load: () => Promise<Answer<T>>, every_ms: number, key: string): Feed<T> => {
    const feed = openFeed(load, every_ms, beat, kept.get(key) as Seen<T> | undefined)
    const stop = (): void => {
      kept.set(key, feed.seen.value)
      feed.stop()
    }
    return { ...feed, stop }
  }
  const loaderOf = (job: string): (() => Promise<Answer<JobLog>>) => {
    const loader = loaders.get(job) ?? jobLoader(api, job)
    loaders.set(job, loader)
    return loader
  }
  const forget = (): void => {
    kept.clear()
    loaders.clear()
  }
  return {
    api,
    beat,
    door,
    look,
    watch,
    watchJob: (job) => watch(loaderOf(job), JOB_EVERY_MS, `job ${job}`),
    leave() {
      forget()
      if (door.value.at === 'out') door.value = { ...door.value, ended: false }
    },
    async signIn(name, password) {
      const answer = await api.login(name, password)
      if (answer.kind === 'value') await look()
      return answer
    },
    async signOut() {
      await api.logout()
      forget()
      await look()
    },
  }
}
