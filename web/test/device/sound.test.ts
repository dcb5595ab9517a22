// What shakes and when: a page that nobody has touched yet asks for nothing.
import { signal } from '@preact/signals'
import { afterEach, expect, it, vi } from 'vitest'
import { lateSound } from '../../src/device/late_sound.ts'
import { pageSound } from '../../src/device/sound.ts'
import type { SoundView } from '../../src/device/types.ts'

const shaken: number[][] = []
const view = signal<SoundView>('not_available')

function phone(userActivation: { hasBeenActive: boolean } | undefined): void {
  shaken.length = 0
  vi.stubGlobal('navigator', { userActivation, vibrate: (ms: number[]) => shaken.push(ms) })
}

afterEach(() => vi.unstubAllGlobals())

it('does not shake after a reload that nobody has touched yet', () => {
  phone({ hasBeenActive: false })
  pageSound(view).call('due')
  expect(shaken).toEqual([])
})

it('shakes once somebody has touched the page, and where the browser does not say', () => {
  phone({ hasBeenActive: true })
  pageSound(view).call('recorded')
  phone(undefined)
  pageSound(view).call('recorded')
  expect(shaken).toEqual([[30]])
})

it('does not shake while it is silenced', () => {
  phone({ hasBeenActive: true })
  let now_ms = 0
  const sound = pageSound(view, () => now_ms)
  sound.silence(60_000)
  sound.call('due')
  now_ms = 60_000
  sound.call('due')
  expect(shaken).toEqual([[0], [400, 150, 400]])
})

it('shakes at the first call too, though what sounds comes with it', async () => {
  phone({ hasBeenActive: true })
  lateSound().call('recorded')
  await vi.waitFor(() => expect(shaken).toEqual([[30]]))
})
