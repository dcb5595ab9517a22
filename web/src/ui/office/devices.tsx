// Devices: those that wait to be let in, the paired ones, the revoked ones.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { DeviceRow } from '../../office_api/rows.ts'
import { Mark } from '../parts/mark.tsx'
import { o } from '../words/office_en.ts'
import { ago } from './ago.ts'
import { CallsPart } from './calls_part.tsx'
import { CodeSheet } from './code_sheet.tsx'
import { Form } from './forms.tsx'
import { useSecond } from './office_clock.tsx'
import { personName, useOffice } from './office_desk.ts'
import { Empty, Head, Sheet } from './page_parts.tsx'
import { useAct } from './use_act.ts'
import { WaitingDevice } from './waiting_device.tsx'

const words = o.devices

export function DevicesScreen(): JSX.Element {
  const { shop } = useOffice()
  const [making, setMaking] = useState(false)
  const phones = shop.devices.filter((device) => device.person !== '')
  const paired = phones.filter((device) => device.state === 'paired')
  const revoked = phones.filter((device) => device.state === 'revoked')
  return (
    <>
      <Head title={words.title}>
        <button type="button" class="key key-main" onClick={() => setMaking(true)}>
          <span>{words.make}</span>
        </button>
      </Head>
      {!making && <Waiting devices={phones.filter((device) => device.state === 'waiting')} />}
      <h2>{words.paired}</h2>
      {shop.heard && paired.length === 0 && <Empty words={words.empty} next={words.emptyNext} />}
      {paired.length > 0 && <PairedTable devices={paired} name={words.paired} canRevoke />}
      {revoked.length > 0 && (
        <>
          <h2>{words.revokedTitle}</h2>
          <PairedTable devices={revoked} name={words.revokedTitle} canRevoke={false} />
        </>
      )}
      <CallsPart />
      {making && (
        <Sheet title={words.make} onClose={() => setMaking(false)}>
          <CodeSheet />
        </Sheet>
      )}
    </>
  )
}

function Waiting({ devices }: { devices: readonly DeviceRow[] }): JSX.Element {
  return (
    <section class="o-part" aria-label={words.waiting}>
      <h2>{words.waiting}</h2>
      {devices.length === 0 && <p class="soft">{words.noneWaiting}</p>}
      <ul class="o-waiting">
        {devices.map((device) => (
          <WaitingDevice key={device.device} device={device} />
        ))}
      </ul>
    </section>
  )
}

function holdsWords(device: DeviceRow): string {
  const { holds_entries, holds_photos } = device
  return holds_entries + holds_photos === 0 ? words.holdsNone : words.holdsSome(holds_entries, holds_photos)
}

type TableProps = { devices: readonly DeviceRow[]; name: string; canRevoke: boolean }

function PairedTable({ devices, name, canRevoke }: TableProps): JSX.Element {
  const { shop } = useOffice()
  const now_ms = useSecond()
  const [revoking, setRevoking] = useState<DeviceRow>()
  return (
    <>
      <table class="o-table" aria-label={name}>
        <thead>
          <tr>
            <th scope="col">{words.name}</th>
            <th scope="col">{words.person}</th>
            <th scope="col">{words.heard}</th>
            <th scope="col">{words.holds}</th>
            {canRevoke && <th scope="col">{words.act}</th>}
          </tr>
        </thead>
        <tbody>
          {devices.map((device) => (
            <tr key={device.device}>
              <th scope="row">
                <span class="o-line">
                  <Mark name={device.holds_entries + device.holds_photos > 0 ? 'phone' : 'office'} />
                  <span>{device.name}</span>
                </span>
              </th>
              <td data-name={words.person}>{personName(shop, device.person)}</td>
              <td data-name={words.heard}>{ago(device.last_heard_ms, now_ms)}</td>
              <td data-name={words.holds}>{holdsWords(device)}</td>
              {canRevoke && (
                <td>
                  <button
                    type="button"
                    class="key key-stop"
                    aria-label={words.revokeOne(device.name)}
                    onClick={() => setRevoking(device)}
                  >
                    <span>{words.revoke}</span>
                  </button>
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
      {revoking && <RevokeSheet device={revoking} onClose={() => setRevoking(undefined)} />}
    </>
  )
}

function RevokeSheet({ device, onClose }: { device: DeviceRow; onClose: () => void }): JSX.Element {
  const { desk, refreshShop } = useOffice()
  const act = useAct()
  const done = (): void => {
    onClose()
    refreshShop()
  }
  return (
    <Sheet title={words.revokeTitle(device.name)} onClose={onClose}>
      <Form
        act={act}
        submit={words.revokeKey}
        tone="stop"
        onSubmit={() => void act.run(() => desk.api.revoke(device.device), done)}
        onCancel={onClose}
      >
        <p>{words.revokeNote}</p>
      </Form>
    </Sheet>
  )
}
