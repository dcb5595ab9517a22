// Composition root of the page: which of office, demo front page and phone this address is.
import { browserMarker } from './store/marker.ts'
import { storeName } from './store/store_name.ts'
import { start } from './ui/words/start_en.ts'

const ASK_MS = 4000

type Where = 'office' | 'demo' | 'phone'

async function begin(): Promise<void> {
  const root = document.getElementById('app')
  if (root === null) throw new Error('index.html: an element with the id app')
  switch (await where(location.pathname)) {
    case 'office':
      return (await import('./office_main.tsx')).startOffice(root)
    case 'demo':
      return (await import('./demo_main.tsx')).startDemo(root)
    case 'phone':
      return (await import('./phone_main.tsx')).startPhone(root)
  }
}

/** A paired phone is known without a network; only an address that is no phone yet asks what it is. */
async function where(path: string): Promise<Where> {
  if (path === '/office' || path.startsWith('/office/')) return 'office'
  if (path !== '/' || browserMarker(storeName()).read() !== '') return 'phone'
  return (await isDemoFront()) ? 'demo' : 'phone'
}

async function isDemoFront(): Promise<boolean> {
  try {
    const answer = await fetch('/api/me', { signal: AbortSignal.timeout(ASK_MS) })
    const me = (await answer.json()) as { demo?: boolean; slug?: string }
    return me.demo === true && me.slug === ''
  } catch {
    return false // no server: a phone's pages say so, and work
  }
}

/** A part of the app did not come: said with bare means, where nothing is shown yet. */
function sayNotWhole(error: unknown): never {
  const root = document.getElementById('app')
  if (root?.childElementCount === 0) {
    const again = element('button', start.again)
    again.addEventListener('click', () => location.reload())
    root.append(element('h1', start.notWhole), element('p', start.notWholeWhy), again)
  }
  throw error
}

function element(name: 'h1' | 'p' | 'button', words: string): HTMLElement {
  const made = document.createElement(name)
  made.textContent = words
  return made
}

begin().catch(sayNotWhole)
