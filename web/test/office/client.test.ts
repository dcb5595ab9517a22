// The office's client: answers, refusals, silence, and the sign-in that ends.
import { describe, expect, test } from 'vitest'
import { openOfficeApi } from '../../src/office_api/client.ts'
import { openDesk } from '../../src/office_api/desk.ts'
import { type Fetch, openTransport } from '../../src/office_api/transport.ts'
import { handBeat } from './hand_beat.ts'

const json = (status: number, body: unknown): Response => new Response(JSON.stringify(body), { status })
const answering = (answers: Readonly<Record<string, () => Response>>): Fetch => {
  return async (url) => answers[url]?.() ?? json(404, { code: 'not_found', message: url, field: '' })
}

describe('a request is answered by', () => {
  test('its value', async () => {
    const transport = openTransport(answering({ '/a': () => json(200, { n: 3 }) }))
    expect(await transport.get('/a')).toEqual({ kind: 'value', value: { n: 3 } })
  })

  test('a refusal with code, field and the faults of a file', async () => {
    const faults = [{ line: 41, message: 'needs: unknown step' }]
    const refused = () => json(422, { code: 'method_faults', message: 'no', field: 'yaml', faults })
    const answer = await openTransport(answering({ '/a': refused })).post('/a', {})
    expect(answer).toMatchObject({
      kind: 'refused',
      refusal: { status: 422, code: 'method_faults', field: 'yaml', faults },
    })
  })

  test('a refusal of its own where the error is no JSON', async () => {
    const answer = await openTransport(
      answering({ '/a': () => new Response('<h1>no</h1>', { status: 500 }) }),
    ).get('/a')
    expect(answer).toMatchObject({ kind: 'refused', refusal: { status: 500, code: 'not_understood' } })
  })

  test.each([502, 503, 504])('silence, when a proxy says %i in place of the office', async (status) => {
    expect(await openTransport(answering({ '/a': () => json(status, {}) })).get('/a')).toEqual({
      kind: 'silent',
    })
  })

  test('silence, when nobody is there', async () => {
    const nobody: Fetch = async () => {
      throw new TypeError('failed to fetch')
    }
    expect(await openTransport(nobody).get('/a')).toEqual({ kind: 'silent' })
  })

  test('its own cancelling, when it was stopped', async () => {
    const stopper = new AbortController()
    const hanging: Fetch = (_, init) =>
      new Promise((_resolve, reject) => {
        init.signal?.addEventListener('abort', () => reject(new DOMException('stopped', 'AbortError')))
      })
    const asked = openTransport(hanging).post('/a', {}, stopper.signal)
    stopper.abort()
    expect(await asked).toEqual({ kind: 'cancelled' })
  })
})

describe('the desk', () => {
  const office = { person: 'p', name: 'Ada Quill' }

  test('knows who is signed in, and that nobody is', async () => {
    const desk = openDesk(
      answering({ '/api/me': () => json(200, { now_ms: 1, demo: true, office }) }),
      handBeat().beat,
    )
    await desk.look()
    expect(desk.door.value).toEqual({ at: 'in', ...office, demo: true })
    const out = openDesk(
      answering({ '/api/me': () => json(200, { now_ms: 1, demo: false }) }),
      handBeat().beat,
    )
    await out.look()
    expect(out.door.value).toEqual({ at: 'out', ended: false, demo: false })
  })

  test('says that a sign-in has ended when any route wants one', async () => {
    const answers = {
      '/api/me': () => json(200, { now_ms: 1, office }),
      '/api/jobs': () => json(401, { code: 'no_login', message: 'sign in', field: '' }),
    }
    const desk = openDesk(answering(answers), handBeat().beat)
    await desk.look()
    await desk.api.board()
    expect(desk.door.value).toMatchObject({ at: 'out', ended: true })
    desk.leave()
    expect(desk.door.value).toMatchObject({ at: 'out', ended: false })
  })

  test('shows a page that is opened again at once, as it was heard before', async () => {
    const hand = handBeat()
    const desk = openDesk(async () => json(200, {}), hand.beat)
    const first = desk.watch(async () => ({ kind: 'value', value: 1 }), 0, 'board')
    await hand.settle()
    first.stop()
    const again = desk.watch<number>(() => new Promise(() => {}), 0, 'board')
    expect(again.seen.value).toEqual({ value: 1, heard_ms: hand.beat.now() })
  })

  test('a wrong password leaves the door where it was', async () => {
    const answers = {
      '/api/me': () => json(200, { now_ms: 1 }),
      '/api/office/login': () => json(401, { code: 'wrong_password', message: 'no', field: 'password' }),
    }
    const desk = openDesk(answering(answers), handBeat().beat)
    await desk.look()
    expect(await desk.signIn('Ada Quill', 'x')).toMatchObject({ refusal: { code: 'wrong_password' } })
    expect(desk.door.value).toMatchObject({ at: 'out', ended: false })
  })

  test('a server that does not answer is silence, not a sign-out', async () => {
    const desk = openDesk(async () => {
      throw new TypeError('failed to fetch')
    }, handBeat().beat)
    await desk.look()
    expect(desk.door.value).toMatchObject({ at: 'silent' })
  })
})

describe('the list of the filed is asked', () => {
  const urlOf = async (
    search: Parameters<ReturnType<typeof openDesk>['api']['filed']>[0],
  ): Promise<string> => {
    let asked = ''
    const fetching: Fetch = async (url) => {
      asked = url
      return json(200, { filed: [], more: false })
    }
    await openDesk(fetching, handBeat().beat).api.filed(search)
    return asked
  }

  test('plainly where nothing is sought', async () => {
    expect(await urlOf({ words: '' })).toBe('/api/filed')
  })

  test('with words, days and the last dossier of the page before, each encoded', async () => {
    expect(await urlOf({ words: 'KL 77-B & co', from_ms: 1, until_ms: 2, after: 'd-1' })).toBe(
      '/api/filed?words=KL+77-B+%26+co&from_ms=1&until_ms=2&after=d-1',
    )
  })
})

describe("a maker's instruction", () => {
  test('is sent as the PDF that it is, with what it belongs to, and is taken away by its id', async () => {
    const sent: [string, string, string][] = []
    const api = openOfficeApi(
      openTransport(async (url, init) => {
        const type = new Headers(init.headers).get('Content-Type') ?? ''
        sent.push([init.method ?? 'GET', url, type])
        return json(200, {})
      }),
    )
    await api.addPaper({ name: 'Instruction 7', job: 'j', method: '' }, new Blob(['%PDF-1.7']))
    await api.removePaper('p')
    expect(sent).toEqual([
      ['POST', '/api/papers?name=Instruction+7&job=j', 'application/pdf'],
      ['DELETE', '/api/papers/p', ''],
    ])
  })
})
