// The browser would not open this phone's store: what it said, and what to do.
import type { JSX } from 'preact'
import { Key } from '../parts/key.tsx'
import { door } from '../words/door_en.ts'
import { DoorPage } from './door_page.tsx'

export function StoreFailed({ words }: { words: string }): JSX.Element {
  const again = (
    <Key tone="main" onPress={() => location.reload()}>
      {door.storeAgain}
    </Key>
  )
  return (
    <DoorPage title={door.storeFailedTitle} mark="refused" words={door.storeFailed} foot={again}>
      <p class="soft">{words}</p>
    </DoorPage>
  )
}
