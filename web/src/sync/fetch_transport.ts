/** The transport over fetch: JSON gzipped on the way out where the browser can, a time limit, no more. */
import { type Answer, type Transport, TransportFault } from './types.ts'

const PATIENCE_MS = 30_000
/** Below this, gzip costs more than it saves. */
const GZIP_FROM_CHARACTERS = 1_024

type Fetch = (path: string, init: RequestInit) => Promise<Response>

export function fetchTransport(ask: Fetch = (path, init) => fetch(path, init)): Transport {
  return {
    async send({ method, path, json, bytes, headers }) {
      const { body, encoding } = json === undefined ? { body: bytes, encoding: {} } : await packed(json)
      const type = json === undefined ? {} : { 'Content-Type': 'application/json' }
      const init: RequestInit = {
        method,
        headers: { Accept: 'application/json', ...type, ...encoding, ...headers },
        credentials: 'same-origin',
        cache: 'no-store',
        signal: AbortSignal.timeout(PATIENCE_MS),
        ...(body === undefined ? {} : { body }),
      }
      return heard(path, () => ask(path, init))
    },
  }
}

async function heard(path: string, ask: () => Promise<Response>): Promise<Answer> {
  try {
    const response = await ask()
    return { status: response.status, headers: response.headers, bytes: await response.arrayBuffer() }
  } catch (error) {
    throw new TransportFault(`${path}: no answer from the shop's server`, { cause: error })
  }
}

async function packed(json: unknown): Promise<{ body: BodyInit; encoding: Record<string, string> }> {
  const text = JSON.stringify(json)
  if (text.length < GZIP_FROM_CHARACTERS || !('CompressionStream' in globalThis))
    return { body: text, encoding: {} }
  const zipped = new Response(text).body?.pipeThrough(new CompressionStream('gzip'))
  return { body: await new Response(zipped).arrayBuffer(), encoding: { 'Content-Encoding': 'gzip' } }
}
