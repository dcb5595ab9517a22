// A phone that waits to be let in: its name, its four check digits, and the two answers.
import type { JSX } from 'preact'
import type { DeviceRow } from '../../office_api/rows.ts'
import { o } from '../words/office_en.ts'
import { ActWords } from './forms.tsx'
import { personName, useOffice } from './office_desk.ts'
import { useAct } from './use_act.ts'

const words = o.devices

export function WaitingDevice({ device }: { device: DeviceRow }): JSX.Element {
  const { desk, shop, refreshShop } = useOffice()
  const act = useAct()
  return (
    <li>
      <p>
        <strong>{device.name}</strong>, {personName(shop, device.person)}
      </p>
      <p class="o-check">
        <small>{words.check}</small>
        <span class="o-big num">{device.check}</span>
      </p>
      <p>{words.checkNote}</p>
      <ActWords state={act.state} />
      <div class="o-keys">
        <button
          type="button"
          class="key key-main"
          aria-label={words.confirmOne(device.name)}
          onClick={() => void act.run(() => desk.api.confirm(device.device), refreshShop)}
        >
          <span>{words.confirm}</span>
        </button>
        <button
          type="button"
          class="key key-stop"
          aria-label={words.refuseOne(device.name)}
          onClick={() => void act.run(() => desk.api.refuse(device.device), refreshShop)}
        >
          <span>{words.refuse}</span>
        </button>
      </div>
    </li>
  )
}
