// Scenes of a phone that nobody has let in yet, and of one whose store will not open.
import type { JSX } from 'preact'
import type { PairingView } from '../../../src/sync/types.ts'
import { type Doorstep, PairPhone } from '../../../src/ui/door/pair_phone.tsx'
import { StoreFailed } from '../../../src/ui/door/store_failed.tsx'

const HERE: Doorstep = { apart: false, installed: true, secure: true, lost: false }

function door(view: PairingView, doorstep: Partial<Doorstep> = {}): () => Promise<JSX.Element> {
  const props = { view, doorstep: { ...HERE, ...doorstep }, onClaim: async () => undefined }
  return async () => <PairPhone {...props} />
}

const refused = (code: string) => door({ at: 'refused', code, message: '' })

export const DOOR_SCENES: Readonly<Record<string, () => Promise<JSX.Element>>> = {
  door_pair: door({ at: 'start' }),
  door_install_first: door({ at: 'start' }, { apart: true, installed: false }),
  door_waiting: door({ at: 'waiting', check: '4071' }),
  door_wrong_code: refused('wrong_code'),
  door_expired_code: refused('expired_code'),
  door_no_answer: refused('no_answer'),
  door_insecure: door({ at: 'start' }, { secure: false }),
  door_store_lost: door({ at: 'start' }, { lost: true }),
  door_store_failed: async () => <StoreFailed words="InvalidStateError: the store was closed" />,
}
