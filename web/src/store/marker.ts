/** The second memory of a pairing: if it stands and the store is empty, the store was lost. */

export interface Marker {
  /** The device id that was paired under this store's name; '' when none was. */
  read(): string
  write(device: string): void
}

/** In localStorage and a cookie of a year, since a browser may clear either alone. */
export function browserMarker(name: string): Marker {
  // Cookies ignore ports: two phones in one browser, told apart by port only, need two names.
  const port = 'location' in globalThis ? globalThis.location.port : ''
  const key = `paired_${port}_${name.replace(/[^A-Za-z0-9_-]/g, '_')}`
  return {
    read: () => fromLocal(key) || fromCookie(key),
    write: (device) => {
      toLocal(key, device)
      if ('document' in globalThis) {
        // biome-ignore lint/suspicious/noDocumentCookie: the Cookie Store API is not on iOS
        document.cookie = `${key}=${device}; Max-Age=31536000; Path=/; SameSite=Strict`
      }
    },
  }
}

export function memoryMarker(device = ''): Marker {
  let kept = device
  return {
    read: () => kept,
    write: (next) => {
      kept = next
    },
  }
}

function fromLocal(key: string): string {
  try {
    return globalThis.localStorage?.getItem(key) ?? ''
  } catch {
    return '' // storage refused by the browser's settings: the cookie may still know
  }
}

function toLocal(key: string, device: string): void {
  try {
    globalThis.localStorage?.setItem(key, device)
  } catch {
    // storage refused by the browser's settings: the cookie still remembers
  }
}

function fromCookie(key: string): string {
  if (!('document' in globalThis)) return ''
  const found = document.cookie.split('; ').find((pair) => pair.startsWith(`${key}=`))
  return found?.slice(key.length + 1) ?? ''
}
