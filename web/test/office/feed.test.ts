// Feeds: asking again while the page is seen, keeping what was heard through silence; a job's log in pages.
import { describe, expect, test } from 'vitest'
import { dumps, type Json } from '../../src/core/canonical.ts'
import type { Answer } from '../../src/office_api/answer.ts'
import type { OfficeApi } from '../../src/office_api/client.ts'
import { openFeed } from '../../src/office_api/feed.ts'
import { jobLoader } from '../../src/office_api/job_feed.ts'
import type { EntriesPage } from '../../src/office_api/rows.ts'
import { DIGEST, JOB, logOf, METHOD, OPENED } from './a_job.ts'
import { handBeat } from './hand_beat.ts'

function counting() {
  const asked = { times: 0, silent: false }
  const load = async (): Promise<Answer<number>> => {
    asked.times += 1
    return asked.silent ? { kind: 'silent' } : { kind: 'value', value: asked.times }
  }
  return { asked, load }
}

describe('a feed', () => {
  test('asks at once, and again after its time', async () => {
    const hand = handBeat()
    const { asked, load } = counting()
    const feed = openFeed(load, 4000, hand.beat)
    await hand.settle()
    await hand.pass(4000)
    expect(asked.times).toBe(2)
    expect(feed.seen.value).toMatchObject({ value: 2, heard_ms: hand.beat.now() })
  })

  test('keeps what it heard last through silence, and says since when', async () => {
    const hand = handBeat()
    const { asked, load } = counting()
    const feed = openFeed(load, 4000, hand.beat)
    await hand.settle()
    const heard = hand.beat.now()
    asked.silent = true
    await hand.pass(4000)
    await hand.pass(4000)
    expect(feed.seen.value).toEqual({ value: 1, heard_ms: heard, silent_since_ms: heard })
    asked.silent = false
    await hand.pass(4000)
    expect(feed.seen.value.silent_since_ms).toBeUndefined()
  })

  test('asks nothing while the page is hidden, and at once when it is seen again', async () => {
    const hand = handBeat()
    const { asked, load } = counting()
    openFeed(load, 4000, hand.beat)
    await hand.settle()
    await hand.see(false)
    await hand.pass(60_000)
    expect(asked.times).toBe(1)
    await hand.see(true)
    expect(asked.times).toBe(2)
  })

  test('asks no more once it is stopped', async () => {
    const hand = handBeat()
    const { asked, load } = counting()
    const feed = openFeed(load, 4000, hand.beat)
    await hand.settle()
    feed.stop()
    await hand.pass(60_000)
    expect(asked.times).toBe(1)
  })
})

describe('a job in the page', () => {
  const items = logOf(OPENED).items.map((item) => ({
    text: dumps(item.entry as unknown as Json),
    received_ms: item.received_ms,
  }))

  /** Answers one entry a page, from a store whose name a test can change. */
  function server() {
    const at = { store: 'log-1', methods: 0, after: [] as number[] }
    const page = (after: number): EntriesPage => ({
      job: JOB,
      cursor: after + Math.min(1, items.length - after),
      more: after + 1 < items.length,
      entries: items.slice(after, after + 1),
      photos_here: [],
      thumbs_here: [],
      log: at.store,
      now_ms: 0,
    })
    const api = {
      entries: async (_: string, after: number) => {
        at.after.push(after)
        return { kind: 'value', value: page(after) }
      },
      methodText: async () => {
        at.methods += 1
        return { kind: 'value', value: dumps(METHOD as unknown as Json) }
      },
    } as unknown as OfficeApi
    return { at, api }
  }

  test('is pulled page by page, and its methods once', async () => {
    const { at, api } = server()
    const load = jobLoader(api, JOB)
    const answer = await load()
    await load()
    expect(answer).toMatchObject({ kind: 'value', value: { methods: { [DIGEST]: METHOD } } })
    expect(answer.kind === 'value' && answer.value.items.length).toBe(items.length)
    expect(at.after).toEqual([0, 1, 2, 3])
    expect(at.methods).toBe(1)
  })

  test('is read anew when another store answers', async () => {
    const { at, api } = server()
    const load = jobLoader(api, JOB)
    await load()
    at.store = 'log-2'
    const answer = await load()
    expect(answer.kind === 'value' && answer.value.items.length).toBe(items.length)
    expect(at.after.slice(3)).toEqual([3, 0, 1, 2])
  })
})
