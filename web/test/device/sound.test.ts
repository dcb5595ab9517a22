// What shakes and when: a page that nobody has touched yet asks for nothing.
import { afterEach, expect, it, vi } from 'vitest'
import { pageSound } from '../../src/device/sound.ts'

const shaken: number[][] = []

function phone(userActivation: { hasBeenActive: boolean } | undefined): void {
  shaken.length = 0
  vi.stubGlobal('navigator', { userActivation, vibrate: (ms: number[]) => shaken.push(ms) })
}

afterEach(() => vi.unstubAllGlobals())

it('does not shake after a reload that nobody has touched yet', () => {
  phone({ hasBeenActive: false })
  pageSound().call('due')
  expect(shaken).toEqual([])
})

it('shakes once somebody has touched the page, and where the browser does not say', () => {
  phone({ hasBeenActive: true })
  pageSound().call('recorded')
  phone(undefined)
  pageSound().call('recorded')
  expect(shaken).toEqual([[30]])
})

it('does not shake while it is silenced', () => {
  phone({ hasBeenActive: true })
  let now_ms = 0
  const sound = pageSound(() => now_ms)
  sound.silence(60_000)
  sound.call('due')
  now_ms = 60_000
  sound.call('due')
  expect(shaken).toEqual([[0], [400, 150, 400]])
})
