// What calls this phone: armed only where the office would call, the browser still knows it, and a contact is set.
import { describe, expect, it } from 'vitest'
import { type BrowserKeys, type PushBrowser, startCalls, type Wanted } from '../../src/sync/calls.ts'
import { type Transport, TransportFault } from '../../src/sync/types.ts'

const KEYS: BrowserKeys = { endpoint: 'https://push.example/1', p256dh: 'p', auth: 'a' }
const BOTH: Wanted = { runs: true, signs: true }

type Office = {
  contact_fault: string
  wanted: (Wanted & { trouble: string }) | null
  away?: boolean
  cause?: string
}

function bench(office: Office, browser: Partial<PushBrowser> = {}) {
  const asked: string[] = []
  const kept: Wanted[] = []
  let held: BrowserKeys | undefined
  const answer = (method: string, path: string, json: unknown): unknown => {
    if (path.endsWith('rehearsal')) return { fate: 'taken', cause: office.cause ?? '' }
    if (method === 'DELETE') office.wanted = null
    if (method === 'POST') office.wanted = { ...(json as Wanted), trouble: '' }
    return { public_key: 'key', ...office }
  }
  const transport: Transport = {
    async send({ method, path, json }) {
      if (office.away) throw new TransportFault('away')
      asked.push(`${method} ${path}`)
      const bytes = new TextEncoder().encode(JSON.stringify(answer(method, path, json))).buffer as ArrayBuffer
      return { status: 200, headers: { get: () => null }, bytes }
    },
  }
  const here: PushBrowser = {
    reach: () => 'yes',
    current: async () => held,
    subscribe: async () => {
      held = KEYS
      return KEYS
    },
    unsubscribe: async () => {
      held = undefined
    },
    ...browser,
  }
  const calls = startCalls(transport, here, async (armed) => void kept.push(armed))
  return { calls, asked, kept, view: () => calls.view.value, lose: () => here.unsubscribe() }
}

const none: Office = { contact_fault: '', wanted: null }

describe('what calls this phone', () => {
  it('is nothing until it is asked for, and then what was chosen', async () => {
    const { calls, view, kept } = bench({ ...none })
    await calls.look()
    expect(view().at).toBe('off')
    await calls.want({ runs: true, signs: false })
    expect(view()).toMatchObject({ at: 'armed', wanted: { runs: true, signs: false }, met: '' })
    expect(kept.at(-1)).toMatchObject({ runs: true, signs: false })
  })

  it('is not armed while the office has given no contact, whatever was chosen', async () => {
    const { calls, view, kept } = bench({ contact_fault: 'missing', wanted: { ...BOTH, trouble: '' } })
    await calls.look()
    expect(view().at).toBe('contact')
    expect(kept.at(-1)).toEqual({ runs: false, signs: false })
  })

  it('is lost where the browser has dropped what the office still calls', async () => {
    const { calls, view, lose } = bench({ ...none })
    await calls.want(BOTH)
    await lose()
    await calls.look()
    expect(view().at).toBe('lost')
    await calls.want(BOTH)
    expect(view().at).toBe('armed')
  })

  it('is taken back at the office first when nothing is wanted any more', async () => {
    const { calls, view, asked } = bench({ ...none })
    await calls.want(BOTH)
    await calls.want({ runs: false, signs: false })
    expect(view().at).toBe('off')
    expect(asked).toContain('DELETE /api/push')
  })

  it('says that the answer was no, and tells the office nothing', async () => {
    let asked_once = false
    const { calls, view, asked } = bench(
      { ...none },
      {
        reach: () => (asked_once ? 'denied' : 'yes'),
        subscribe: async () => {
          asked_once = true
          return undefined
        },
      },
    )
    await calls.want(BOTH)
    expect(view()).toMatchObject({ at: 'off', met: 'denied' })
    expect(asked).not.toContain('POST /api/push')
  })

  it('survives a browser whose push service gives nothing', async () => {
    const { calls, view } = bench({ ...none }, { subscribe: () => Promise.reject(new Error('AbortError')) })
    await calls.want(BOTH)
    expect(view()).toMatchObject({ at: 'off', met: 'not_given' })
  })

  it('keeps what it knew when the office does not answer', async () => {
    const office: Office = { ...none }
    const { calls, view } = bench(office)
    await calls.want(BOTH)
    office.away = true
    await calls.want({ runs: false, signs: false })
    expect(view()).toMatchObject({ at: 'armed', wanted: BOTH, met: 'offline' })
  })

  it('says offline where it never heard the office', async () => {
    const { calls, view } = bench({ ...none, away: true })
    await calls.look()
    expect(view().at).toBe('offline')
  })

  it('shows why a call of its own did not go out', async () => {
    const { calls, view } = bench({ ...none, cause: 'The push service answered 403: BadJwtToken' })
    await calls.want(BOTH)
    await calls.rehearse()
    expect(view().met).toEqual({ message: 'The push service answered 403: BadJwtToken' })
  })
})
