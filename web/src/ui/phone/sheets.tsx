// The sheet behind the right of the glance line: where the records are.
import { useSignal } from '@preact/signals'
import type { JSX } from 'preact'
import { useEffect } from 'preact/hooks'
import { recordsOf, whereCounts } from '../../core/views/records_view.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Facts } from '../parts/leaf.tsx'
import { Sheet } from '../parts/sheet.tsx'
import { type StateName, StateWord } from '../parts/state_word.tsx'
import { recordWords } from '../words/en_records.ts'
import { selfWords } from '../words/en_self.ts'
import { clockTime, count } from '../words/format.ts'
import { usePhone } from './context.ts'
import { useHandedIn } from './handed_in.ts'
import { NetworkSwitch } from './network_switch.tsx'
import { Reach } from './reach.tsx'
import { paths } from './router.ts'
import { useStillHere } from './still_here.ts'

export function RecordsSheet({ onClose }: { onClose: () => void }): JSX.Element {
  const { services, cards, me } = usePhone()
  const status = services.sync.status.value
  const persisted = services.store.persisted.value
  const mine = [...cards.value.values()].flatMap((card) => recordsOf(card, me().by))
  const { office, filed } = whereCounts(mine)
  const { entries, photos } = status.onThisPhone
  const words = recordWords.sheet
  const waiting = entries + photos
  const here = useStillHere()
  return (
    <Sheet title={words.title} onClose={onClose}>
      <ul class="where">
        <Where
          n={waiting}
          state="phone"
          word={words.onPhone}
          line={waiting ? words.onPhoneLine(entries, photos, here.bytes) : words.noneOnPhone}
        />
        <Where n={office} state="office" word={words.office} line={words.officeLine} />
        <Where
          n={filed}
          state="filed"
          word={words.filed}
          line={filed > 0 ? words.filedLine : words.notFiled}
        />
      </ul>
      <HandedIn waiting={waiting} />
      <Reach status={status} now_ms={services.device.clock.now().at_ms} />
      {status.setAside > 0 && <p>{words.setAside(status.setAside)}</p>}
      {status.refused > 0 && <p class="in-stop">{words.refused(status.refused)}</p>}
      <Facts
        rows={[
          [selfWords.storage, selfWords.storageStates[persisted]],
          [selfWords.room, <Room key="room" />],
        ]}
      />
      <div class="keys">
        <NetworkSwitch />
        <Key tone="main" onPress={() => void services.sync.syncNow()}>
          {words.tryNow}
        </Key>
        <KeyLink href={paths.records()}>{recordWords.title}</KeyLink>
        <KeyLink href={paths.handIn}>{words.handIn}</KeyLink>
        <KeyLink href={paths.self}>{selfWords.title}</KeyLink>
      </div>
    </Sheet>
  )
}

function Where(props: { n: number; state: StateName; word: string; line: string }): JSX.Element {
  return (
    <li>
      <span class="num">{count(props.n)}</span>
      <div>
        <StateWord state={props.state} word={props.word} />
        <p class="soft">{props.line}</p>
      </div>
    </li>
  )
}

/** What waits here and was handed in as a file since: the office confirms it with the next contact. */
function HandedIn({ waiting }: { waiting: number }): JSX.Element | null {
  const handed = useHandedIn()
  if (handed === undefined || waiting === 0) return null
  const all = Math.min(handed.count, waiting)
  return <p>{recordWords.sheet.handedIn(all, waiting, clockTime(handed.at_ms))}</p>
}

/** How much room the browser still gives, where it says so. */
function Room(): JSX.Element {
  const room = useSignal('')
  useEffect(() => {
    void navigator.storage?.estimate?.().then(({ quota = 0, usage = 0 }) => {
      room.value = selfWords.roomLeft(quota - usage)
    })
  }, [room])
  return <>{room.value || selfWords.roomUnknown}</>
}
