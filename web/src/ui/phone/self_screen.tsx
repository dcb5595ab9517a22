// This phone: who and which it is, network, theme, screen and sound, storage, and a version that waits.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { NIL_PERSON } from '../../core/entries.ts'
import type { Identity } from '../../store/types.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Facts, Leaf } from '../parts/leaf.tsx'
import { w } from '../words/en.ts'
import { recordWords } from '../words/en_records.ts'
import { selfWords } from '../words/en_self.ts'
import { listed } from '../words/format.ts'
import { roleName } from '../words/names.ts'
import { AlarmTest } from './armed.tsx'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { NetworkSwitch } from './network_switch.tsx'
import { Reach } from './reach.tsx'
import { paths } from './router.ts'
import { THEMES, type Theme, useTheme } from './theme.ts'
import { UpdateNote } from './update_note.tsx'

export function SelfScreen({ hot }: { hot: boolean }): JSX.Element {
  const { services, people } = usePhone()
  const { store, device, sync } = services
  const own = store.identity()
  const status = sync.status.value
  const words = selfWords
  return (
    <Frame
      act="self"
      what={words.title}
      back={paths.jobs}
      foot={
        <>
          <KeyLink href={paths.records()}>{recordWords.title}</KeyLink>
          <KeyLink href={paths.handIn}>{recordWords.sheet.handIn}</KeyLink>
        </>
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {words.title}
        </h1>
        <UpdateNote hot={hot} />
        <Facts
          rows={[
            [words.person, people.value.find((one) => one.id === own?.person)?.name ?? words.shared],
            [
              words.roles,
              listed([...(own?.roles ?? []), ...(own?.qualifications ?? [])].map(roleName)) || w.common.none,
            ],
            [words.device, own?.name ?? ''],
            [words.pairing, pairingWords(own)],
            [words.storage, words.storageStates[store.persisted.value]],
          ]}
        />
        <Reach status={status} now_ms={device.clock.now().at_ms} />
        <Key onPress={() => void sync.syncNow()}>{recordWords.sheet.tryNow}</Key>
        <NetworkSwitch />
        <ScreenAndSound />
        <KeyLink href={paths.calls}>{words.calls}</KeyLink>
        <ThemeChoice hot={hot} />
        {own?.person === NIL_PERSON && <KeyLink href={paths.who}>{words.who}</KeyLink>}
      </Leaf>
    </Frame>
  )
}

function pairingWords(own: Identity | undefined): string {
  const words = selfWords
  switch (own?.state) {
    case 'paired':
      return words.paired
    case 'waiting':
      return words.waiting(own.check)
    case 'revoked':
      return words.revoked
    default:
      return words.notPaired
  }
}

function ScreenAndSound(): JSX.Element {
  const { device } = usePhone().services
  const words = selfWords
  return (
    <section class="keys">
      <Facts
        rows={[
          [words.wake, words.wakeStates[device.wakeLock.view.value]],
          [words.sound, words.soundStates[device.sound.view.value]],
        ]}
      />
      <div class="keys keys-two">
        <Key onPress={() => void device.wakeLock.hold()}>{words.wakeKey}</Key>
        <AlarmTest />
      </div>
    </section>
  )
}

function ThemeChoice({ hot }: { hot: boolean }): JSX.Element {
  const [theme, choose] = useTheme()
  const [asked, setAsked] = useState(false)
  const words = selfWords
  const pick = (one: Theme) => (hot ? setAsked(true) : choose(one))
  return (
    <fieldset>
      <legend class="label-head">{words.theme}</legend>
      <div class="keys keys-three">
        {THEMES.map((one) => (
          <Key key={one} pressed={theme === one} onPress={() => pick(one)}>
            {words.themes[one]}
          </Key>
        ))}
      </div>
      {asked && <p role="status">{words.themeHeld}</p>}
    </fieldset>
  )
}
