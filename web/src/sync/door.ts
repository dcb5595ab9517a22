/** Requests through the door: a lost login is renewed once by the device's key, refusals become Refused. */
import type { PhoneStore } from '../store/index.ts'
import { type Answer, type Transport, TransportFault } from './types.ts'

/** The server heard the request and says no; `code` never changes its meaning. */
export class Refused extends Error {
  readonly status: number
  readonly code: string

  constructor(status: number, code: string, message: string) {
    super(message)
    this.name = 'Refused'
    this.status = status
    this.code = code
  }
}

type Request = Parameters<Transport['send']>[0]

export interface Door {
  /** The answer of a request that went well; 304 and 404 are answers too. */
  ask(request: Request): Promise<Answer>
  json<Body>(request: Request): Promise<Body>
}

export function doorOf(transport: Transport, store: PhoneStore): Door {
  let renewing: Promise<void> | undefined
  const renewOnce = () => {
    renewing ??= renew(transport, store).finally(() => {
      renewing = undefined
    })
    return renewing
  }
  const ask = async (request: Request): Promise<Answer> => {
    const first = await transport.send(request)
    if (first.status !== 401) return settled(request, first)
    await renewOnce()
    return settled(request, await transport.send(request))
  }
  return { ask, json: async (request) => jsonOf(request.path, await ask(request)) }
}

/** Proves by signature that this is the phone that it says; sends its card, for a server that forgot it. */
async function renew(transport: Transport, store: PhoneStore): Promise<void> {
  const [key, me] = [store.sync.key(), store.identity()]
  if (key === undefined || me === undefined || key.device === '') {
    throw new Refused(401, 'not_paired', 'This phone is not paired yet.')
  }
  const device = key.device
  const post = async (path: string, json: unknown) => {
    const request = { method: 'POST', path, json } as const
    return jsonOf<{ nonce?: string }>(path, settled(request, await transport.send(request)))
  }
  const { nonce = '' } = await post('/api/door/challenge', { device })
  const signature = await me.sign(`bayleaf-door-1\n${device}\n${nonce}`)
  const { card, card_signature } = key
  const carried = card === '' ? {} : { card, card_signature }
  await post('/api/door/renew', { device, nonce, signature, ...carried })
}

function settled({ path }: Request, answer: Answer): Answer {
  if (answer.status < 400 || (answer.status === 404 && path.startsWith('/api/thumbs'))) return answer
  if (answer.status === 404 && /^\/api\/(photos|papers)/.test(path)) return answer
  if (answer.status >= 500) throw new TransportFault(`${path}: the server answered ${answer.status}`)
  const { code, message } = refusalIn(answer)
  throw new Refused(answer.status, code, message)
}

function refusalIn(answer: Answer): { code: string; message: string } {
  try {
    const { code, message } = JSON.parse(textOf(answer)) as { code?: unknown; message?: unknown }
    return { code: String(code ?? answer.status), message: String(message ?? '') }
  } catch {
    // A proxy's own page instead of the server's words: no answer of the shop's server.
    throw new TransportFault(`the answer ${answer.status} is not the shop server's`)
  }
}

export function jsonOf<Body>(path: string, answer: Answer): Body {
  try {
    return JSON.parse(textOf(answer)) as Body
  } catch (error) {
    throw new TransportFault(`${path}: the answer is no JSON; another program may answer here`, {
      cause: error,
    })
  }
}

export function textOf(answer: Answer): string {
  return new TextDecoder().decode(answer.bytes)
}
