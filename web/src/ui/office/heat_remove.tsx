// A zone that no job ever used may go, after a second word.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { removing as words } from '../words/en_heat_office.ts'
import { ActWords } from './forms.tsx'
import { useOffice } from './office_desk.ts'
import { linkTo } from './place.ts'
import { useAct } from './use_act.ts'

export function HeatRemove({ digest }: { digest: string }): JSX.Element {
  const { desk, go } = useOffice()
  const act = useAct()
  const [sure, setSure] = useState(false)
  const remove = () =>
    act.run(
      () => desk.api.removeHeatZone(digest),
      () => go(linkTo.heat),
    )
  if (!sure) {
    return (
      <p>
        <button type="button" class="o-link" onClick={() => setSure(true)}>
          {words.key}
        </button>
      </p>
    )
  }
  return (
    <div class="o-stack">
      <p>{words.sure}</p>
      <ActWords state={act.state} />
      <div class="o-keys">
        <button type="button" class="key key-stop" onClick={() => void remove()}>
          <span>{words.yes}</span>
        </button>
        <button type="button" class="key key-plain" onClick={() => setSure(false)}>
          <span>{words.no}</span>
        </button>
      </div>
    </div>
  )
}
