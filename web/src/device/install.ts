/** Whether this page is the installed app, and the browser's own offer to install it. */
import { signal } from '@preact/signals'

type InstallEvent = Event & { prompt(): Promise<unknown> }

export type Doorstep = {
  /** The system keeps records of the installed app and of the browser apart. */
  readonly apart: boolean
  readonly installed: boolean
  readonly secure: boolean
  readonly lost: boolean
}

/** Asks the person to install; undefined while the browser offers nothing. */
export const offerInstall = signal<(() => void) | undefined>(undefined)

globalThis.addEventListener?.('beforeinstallprompt', (event) => {
  event.preventDefault()
  offerInstall.value = () => void (event as InstallEvent).prompt()
})

export function doorstepOf(lost: boolean): Doorstep {
  return { apart: isApart(), installed: isInstalled(), secure: globalThis.isSecureContext, lost }
}

function isInstalled(): boolean {
  return matchMedia('(display-mode: standalone)').matches
}

// iOS and iPadOS (which names itself a Mac, with a touch screen) keep the installed app's storage apart.
function isApart(): boolean {
  return (
    /iPhone|iPad|iPod/.test(navigator.userAgent) ||
    (/Mac/.test(navigator.userAgent) && navigator.maxTouchPoints > 1)
  )
}
