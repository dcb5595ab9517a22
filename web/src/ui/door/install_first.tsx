// Where the installed app and the browser keep records apart: install first, then pair inside.
import type { JSX } from 'preact'
import { Key } from '../parts/key.tsx'
import { door } from '../words/door_en.ts'
import { DoorPage } from './door_page.tsx'

export function InstallFirst({ lost, onInBrowser }: { lost: boolean; onInBrowser: () => void }): JSX.Element {
  return (
    <DoorPage
      title={door.installTitle}
      words={lost ? door.lost : door.installWhy}
      foot={<Key onPress={onInBrowser}>{door.installAll}</Key>}
    >
      <ol class="door-steps">
        {door.installSteps.map((step, at) => (
          <li key={step}>
            <span class="num">{at + 1}</span>
            <span>{step}</span>
          </li>
        ))}
      </ol>
      <p class="soft label">{door.installAllWhy}</p>
    </DoorPage>
  )
}
