// A zone document from a file: checked and kept as it is, or its faults line by line.
import type { JSX } from 'preact'
import { bringIn as words } from '../words/en_heat_office.ts'
import { ActWords, FileField } from './forms.tsx'
import { HeatFaults } from './heat_faults.tsx'
import { useOffice } from './office_desk.ts'
import { linkTo } from './place.ts'
import { faultsOf, useAct } from './use_act.ts'

export function HeatBringIn(): JSX.Element {
  const { desk, go } = useOffice()
  const act = useAct()
  const take = async ([file]: readonly File[]): Promise<void> => {
    act.clear()
    if (file === undefined) return
    const text = await file.text().catch(() => undefined)
    if (text === undefined) return act.lack(words.notRead)
    await act.run(
      (stop) => desk.api.addHeatZone({ text }, stop),
      ({ digest }) => go(linkTo.heatZone(digest)),
    )
  }
  const faults = faultsOf(act)
  return (
    <section class="o-part o-stack" aria-label={words.title}>
      <h2>{words.title}</h2>
      <FileField name={words.file} accept=".yaml,.yml,.json" onPick={(files) => void take(files)} />
      <p class="o-note">{words.note}</p>
      {act.state.at === 'working' && <p role="status">{words.checking}</p>}
      {faults.length > 0 ? <HeatFaults faults={faults} /> : <ActWords state={act.state} />}
    </section>
  )
}
