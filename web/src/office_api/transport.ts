// The one place of the office's pages that calls fetch.
import { type Answer, refusalOf } from './answer.ts'

/** Of a route, from its parts. */
export const path = (...parts: readonly string[]): string => `/api/${parts.map(encodeURIComponent).join('/')}`

export type Fetch = (url: string, init: RequestInit) => Promise<Response>

export type Transport = {
  get<T>(url: string, signal?: AbortSignal): Promise<Answer<T>>
  getText(url: string): Promise<Answer<string>>
  /** A file that is kept gzipped, as its text. */
  getUnpacked(url: string): Promise<Answer<string>>
  post<T>(url: string, body: unknown, signal?: AbortSignal): Promise<Answer<T>>
  /** As what the bytes are, where they say it. */
  postBytes<T>(url: string, bytes: Blob, signal?: AbortSignal): Promise<Answer<T>>
  remove(url: string): Promise<Answer<unknown>>
}

const JSON_TYPE = 'application/json'
/** Bytes that the office takes under their own type. */
const OWN_TYPES: ReadonlySet<string> = new Set(['application/pdf', 'text/csv'])

async function bodyOf(response: Response): Promise<unknown> {
  const text = await response.text()
  try {
    return text === '' ? {} : JSON.parse(text)
  } catch {
    return undefined
  }
}

function silence(error: unknown): Answer<never> {
  const cancelled = error instanceof DOMException && error.name === 'AbortError'
  return cancelled ? { kind: 'cancelled' } : { kind: 'silent' }
}

// A proxy that cannot reach the office answers in its place: that is silence, not a refusal.
const SILENT_STATUS: ReadonlySet<number> = new Set([502, 503, 504])

async function judged<T>(response: Response, read: (response: Response) => Promise<T>): Promise<Answer<T>> {
  if (SILENT_STATUS.has(response.status)) return { kind: 'silent' }
  if (!response.ok) return { kind: 'refused', refusal: refusalOf(response.status, await bodyOf(response)) }
  return { kind: 'value', value: await read(response) }
}

const asJson = async <T>(response: Response): Promise<T> => (await bodyOf(response)) as T

async function unpacked(response: Response): Promise<string> {
  const plain = (await response.blob()).stream().pipeThrough(new DecompressionStream('gzip'))
  return new Response(plain).text()
}

export function openTransport(fetching: Fetch): Transport {
  const ask = async <T>(
    url: string,
    init: RequestInit,
    read: (response: Response) => Promise<T>,
  ): Promise<Answer<T>> => {
    try {
      return await judged(
        await fetching(url, { credentials: 'same-origin', cache: 'no-store', ...init }),
        read,
      )
    } catch (error) {
      return silence(error)
    }
  }
  const withSignal = (signal: AbortSignal | undefined): RequestInit => (signal ? { signal } : {})
  const posted = (type: string, body: BodyInit, signal?: AbortSignal): RequestInit => ({
    method: 'POST',
    headers: { 'Content-Type': type, Accept: JSON_TYPE },
    body,
    ...withSignal(signal),
  })
  return {
    get: <T>(url: string, signal?: AbortSignal) =>
      ask<T>(url, { headers: { Accept: JSON_TYPE }, ...withSignal(signal) }, asJson),
    getText: (url) => ask(url, {}, (response) => response.text()),
    getUnpacked: (url) => ask(url, {}, unpacked),
    post: <T>(url: string, body: unknown, signal?: AbortSignal) =>
      ask<T>(url, posted(JSON_TYPE, JSON.stringify(body), signal), asJson),
    postBytes: <T>(url: string, bytes: Blob, signal?: AbortSignal) =>
      ask<T>(
        url,
        posted(OWN_TYPES.has(bytes.type) ? bytes.type : 'application/octet-stream', bytes, signal),
        asJson,
      ),
    remove: (url) => ask<unknown>(url, { method: 'DELETE', headers: { Accept: JSON_TYPE } }, asJson),
  }
}
