/** What the office asks to have recorded: bodies made from what its page shows, `over` included. */
import { clean } from '../canonical.ts'
import type { Draft, StepRef } from '../entries.ts'
import type { CardState, RegisterKind } from '../state.ts'
import type { AcceptKey } from './office_findings.ts'
import type { SignView, StepView } from './office_steps.ts'

const NO_STEP: StepRef = { method: '', digest: '', step: '' }

const sorted = (hashes: readonly string[]): readonly string[] => [...hashes].sort()
const typed = (text: string): string => clean(text).trim()

/** The values that stand in a register of the job, which a new one replaces. */
export function standingOf(state: CardState, kind: RegisterKind, point = ''): readonly string[] {
  return state.registers.find((one) => one.kind === kind && one.point === point)?.standing ?? []
}

export function strikeDraft(target: string, reason: string): Draft {
  return { kind: 'strike', body: { target, reason: typed(reason) } }
}

export function sendBackDraft(hashes: readonly string[], remark: string): Draft {
  return { kind: 'send_back', body: { hashes: sorted(hashes), remark: typed(remark) } }
}

export function acceptDraft({ code, at, hashes }: AcceptKey, reason: string): Draft {
  return { kind: 'accept', body: { code, at, hashes: sorted(hashes), reason: typed(reason) } }
}

export function admitDraft(hashes: readonly string[], reason: string): Draft {
  return { kind: 'admit', body: { hashes: sorted(hashes), reason: typed(reason) } }
}

export function assignDraft(state: CardState, person: string, on: boolean): Draft {
  return { kind: 'assign', body: { person, on, over: standingOf(state, 'assign', person) } }
}

export function placeDraft(state: CardState, place: string): Draft {
  return { kind: 'place', body: { place: typed(place), over: standingOf(state, 'place') } }
}

export function pinDraft(state: CardState, methods: readonly string[]): Draft {
  return { kind: 'pin', body: { methods, over: standingOf(state, 'pin') } }
}

export function lifeDraft(state: CardState, kind: 'close' | 'reopen', reason: string): Draft {
  return { kind, body: { reason: typed(reason), over: standingOf(state, 'life') } }
}

export function noteDraft(text: string, about: readonly string[]): Draft {
  return { kind: 'note', body: { ...NO_STEP, text: typed(text), about: sorted(about) } }
}

export function countersignDraft(step: StepView, sign: SignView): Draft {
  const { method, digest } = step
  return { kind: 'countersign', body: { method, digest, step: step.step, ask: sign.ask, saw: sign.saw } }
}
