// Making a pairing code: whose phone, the code in large, how long it is good, and who waits by now.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { PairCode } from '../../office_api/rows.ts'
import { w } from '../words/en.ts'
import { countdown } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { Form, Options } from './forms.tsx'
import { personName, useOffice } from './office_desk.ts'
import { useAct } from './use_act.ts'
import { WaitingDevice } from './waiting_device.tsx'

const words = o.devices
const SECOND_MS = 1000

type Made = { readonly code: PairCode; readonly person: string; readonly at_ms: number }

export function CodeSheet(): JSX.Element {
  const { desk, shop } = useOffice()
  const act = useAct()
  const [person, setPerson] = useState(shop.people[0]?.person ?? '')
  const [made, setMade] = useState<Made>()
  if (shop.people.length === 0) return <p>{words.nobody}</p>
  const make = (): void =>
    void act.run(
      () => desk.api.makeCode(person),
      (code) => setMade({ code, person, at_ms: desk.beat.now() }),
    )
  if (made) return <Code made={made} onAgain={() => setMade(undefined)} />
  return (
    <Form act={act} submit={words.makeKey} onSubmit={make}>
      <Options
        name={words.makeFor}
        options={shop.people.map((one) => ({
          id: one.person,
          name: one.name,
          note: one.roles.map((role) => w.common.roles[role] ?? role).join(', '),
        }))}
        chosen={[person]}
        one
        onChange={([chosen]) => setPerson(chosen ?? '')}
      />
    </Form>
  )
}

/** Milliseconds that the code is still good, by this page's own clock: the server's may differ. */
function useLeft(made: Made): number {
  const { desk } = useOffice()
  const [now_ms, setNow] = useState(made.at_ms)
  useEffect(() => {
    const timer = setInterval(() => setNow(desk.beat.now()), SECOND_MS)
    return () => clearInterval(timer)
  }, [desk])
  return made.code.expires_ms - made.code.now_ms - (now_ms - made.at_ms)
}

function Code({ made, onAgain }: { made: Made; onAgain: () => void }): JSX.Element {
  const { shop } = useOffice()
  const left = useLeft(made)
  const waiting = shop.devices.filter((one) => one.state === 'waiting' && one.person === made.person)
  const { code } = made.code
  return (
    <>
      <p>{words.codeFor(personName(shop, made.person))}</p>
      {left > 0 ? (
        <>
          <p class="o-code num" role="img" aria-label={`${words.code} ${code}`}>
            {code.slice(0, 4)} {code.slice(4)}
          </p>
          <p>
            <strong>{words.expires(countdown(left))}</strong>. {words.codeNote}
          </p>
        </>
      ) : (
        <p role="status">{words.expired}</p>
      )}
      <ul class="o-waiting">
        {waiting.map((device) => (
          <WaitingDevice key={device.device} device={device} />
        ))}
      </ul>
      <div class="o-keys">
        <button type="button" class="key key-plain" onClick={onAgain}>
          <span>{words.makeKey}</span>
        </button>
      </div>
    </>
  )
}
