// Scenes of what calls this phone: armed, not armed for each reason, and a call that was refused.
import { signal } from '@preact/signals'
import type { Calls, CallsView, PushReach } from '../../../src/sync/calls.ts'
import { paths } from '../../../src/ui/phone/router.ts'
import type { FakePhone } from '../fake_phone.ts'
import { framePhone } from '../played_frame.ts'

type Scene = () => Promise<{ fake: FakePhone; path: string }>

const OFF: CallsView = { at: 'off', wanted: { runs: false, signs: false }, trouble: '', met: '' }
const ON: CallsView = { ...OFF, at: 'armed', wanted: { runs: true, signs: false } }

function shown(view: CallsView, reach: PushReach = 'yes'): Scene {
  return async () => {
    const nothing = async () => {}
    const calls: Calls = {
      view: signal(view),
      reach: () => reach,
      look: nothing,
      want: nothing,
      rehearse: nothing,
    }
    const fake = framePhone()
    return { fake: { ...fake, services: { ...fake.services, calls: async () => calls } }, path: paths.calls }
  }
}

export const CALLS_SCENES: Readonly<Record<string, Scene>> = {
  calls_off: shown(OFF),
  calls_armed: shown(ON),
  calls_refused: shown({
    ...ON,
    trouble:
      'The push service answered 403: BadJwtToken (It does not accept this server’s key or contact address.)',
  }),
  calls_contact: shown({ ...OFF, at: 'contact' }),
  calls_offline: shown({ ...OFF, at: 'offline' }),
  calls_lost: shown({ ...ON, at: 'lost' }),
  calls_denied: shown(OFF, 'denied'),
  calls_not_installed: shown(OFF, 'not_installed'),
}
