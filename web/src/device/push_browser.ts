/** This browser's half of a call by web push: whether it can, and its subscription. */
import { doorstepOf } from './install.ts'

type Keys = { readonly endpoint: string; readonly p256dh: string; readonly auth: string }

export function pushReach(): 'yes' | 'not_installed' | 'not_available' | 'denied' {
  const able = 'serviceWorker' in navigator && 'PushManager' in globalThis && 'Notification' in globalThis
  const { apart, installed } = doorstepOf(false)
  // Where the installed app is kept apart, its browser has no push at all.
  if (!able) return apart && !installed ? 'not_installed' : 'not_available'
  return Notification.permission === 'denied' ? 'denied' : 'yes'
}

export const pushBrowser = {
  reach: pushReach,
  async current(publicKey: string): Promise<Keys | undefined> {
    const found = await (await manager())?.getSubscription()
    const isOurs = found && same(found.options.applicationServerKey, publicKey)
    return found && isOurs && Notification.permission === 'granted' ? keysOf(found) : undefined
  },
  async subscribe(publicKey: string): Promise<Keys | undefined> {
    if ((await Notification.requestPermission()) !== 'granted') return undefined
    const push = await manager()
    if (push === undefined) throw new Error('no service worker')
    await (await push.getSubscription())?.unsubscribe() // of a server that had another key
    return keysOf(await push.subscribe({ userVisibleOnly: true, applicationServerKey: publicKey }))
  },
  async unsubscribe(): Promise<void> {
    await (await (await manager())?.getSubscription())?.unsubscribe()
  },
}

async function manager(): Promise<PushManager | undefined> {
  return 'serviceWorker' in navigator
    ? (await navigator.serviceWorker.getRegistration())?.pushManager
    : undefined
}

function keysOf(found: PushSubscription): Keys {
  const { endpoint, keys } = found.toJSON()
  return { endpoint: endpoint ?? '', p256dh: keys?.p256dh ?? '', auth: keys?.auth ?? '' }
}

function same(key: ArrayBuffer | null, publicKey: string): boolean {
  return key === null || base64url(new Uint8Array(key)) === publicKey
}

function base64url(bytes: Uint8Array): string {
  return btoa(String.fromCharCode(...bytes))
    .replaceAll('+', '-')
    .replaceAll('/', '_')
    .replace(/=+$/, '')
}
