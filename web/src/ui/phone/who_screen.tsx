// Who works now, on a phone that several people share: picked from the shop's people, by PIN where there is one.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { Person } from '../../store/types.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { w } from '../words/en.ts'
import { whoWords } from '../words/en_who.ts'
import { listed } from '../words/format.ts'
import { roleName } from '../words/names.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { PinEntry } from './pin_entry.tsx'
import { paths } from './router.ts'
import { workNow } from './worker.ts'

/** `onDone`: back to where the phone was. */
export function WhoScreen({ onDone }: { onDone: () => void }): JSX.Element {
  const { people, worker, services } = usePhone()
  const [who, setWho] = useState<Person | undefined>(undefined)
  const work = (person: Person, auth: 'pin' | 'picked') => {
    workNow(worker, { person: person.id, auth })
    onDone()
  }
  return (
    <Frame
      act="who"
      what={services.store.identity()?.name}
      back={worker.value && paths.jobs}
      foot={<KeyLink href={paths.self}>{w.phone.jobs.thisPhone}</KeyLink>}
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {whoWords.title}
        </h1>
        <p>{people.value.length === 0 ? whoWords.nobody : whoWords.why}</p>
        <div class="keys">
          {people.value.map((person) => (
            <div key={person.id} class="keys">
              <Key
                mark="person"
                class="key-row"
                pressed={person.id === who?.id}
                small={listed([...person.roles, ...person.qualifications].map(roleName))}
                onPress={() => setWho(person)}
              >
                {person.name}
              </Key>
              {person.id === who?.id && <HowKnown person={person} onWork={(auth) => work(person, auth)} />}
            </div>
          ))}
        </div>
      </Leaf>
    </Frame>
  )
}

function HowKnown(props: { person: Person; onWork: (auth: 'pin' | 'picked') => void }): JSX.Element {
  const { person, onWork } = props
  return (
    <>
      <PinEntry person={person} keyWords={whoWords.worksNow(person.name)} onKnown={() => onWork('pin')} />
      <Key small={whoWords.withoutPinSays} onPress={() => onWork('picked')}>
        {whoWords.withoutPin}
      </Key>
    </>
  )
}
