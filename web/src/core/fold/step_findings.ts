/** Findings of steps: open asks of done steps, values outside, wrong lots, countersigns that are void. */
import type { Ask } from '../method.ts'
import type { CardState, StepState } from '../state.ts'
import { registersOfAsk } from './answers.ts'
import { asksAsked } from './asked.ts'
import type { CountersignEntry } from './countersigns.ts'
import { type Found, found } from './finding.ts'
import type { Ground } from './ground.ts'
import { isExpired, isWrongLot, type LotEntry } from './lots.ts'
import { placeOf } from './places.ts'
import { askOf, type PinnedStep } from './revisions.ts'
import { valueFault } from './values.ts'

export function stepFindings(ground: Ground, state: Omit<CardState, 'findings'>): Found[] {
  return [
    ...state.steps.flatMap(openAsks),
    ...ground.pinned.steps.flatMap((one) =>
      asksAsked(ground, one).flatMap((ask) => valueFindings(ground, one, ask)),
    ),
    ...state.lots.flatMap((lot) => lot.marked.flatMap((hash) => lotFindings(ground, hash))),
    ...state.countersigns.flatMap(({ hash, why }) => countersignFindings(ground, hash, why)),
  ]
}

function openAsks({ method, step, done, tick, open }: StepState): Found[] {
  if (done === '') return []
  return open.map((ask) => found('open_ask', [method, step, ask], [tick]))
}

function valueFindings(ground: Ground, one: PinnedStep, ask: Ask): Found[] {
  return registersOfAsk(ground, one, ask).flatMap((register) => {
    const answer = register?.answer
    const code = answer === undefined ? undefined : valueFault(ground, one, ask, answer)
    return answer === undefined || code === undefined ? [] : [found(code, placeOf(answer), [answer.hash])]
  })
}

function lotFindings(ground: Ground, hash: string): Found[] {
  const lot = ground.log.live.get(hash) as LotEntry
  const ask = askOf(ground.pinned.find(lot.body), lot.body.ask, 'lot')
  return [
    ...(ask !== undefined && isWrongLot(lot, ask) ? [found('wrong_lot', placeOf(lot), [hash])] : []),
    ...(isExpired(lot) ? [found('expired_lot', placeOf(lot), [hash])] : []),
  ]
}

function countersignFindings(ground: Ground, hash: string, why: string): Found[] {
  const entry = ground.log.live.get(hash) as CountersignEntry
  if (why === 'struck') return []
  if (why !== '') return [found('void_countersign', placeOf(entry), [hash])]
  if (!isOfOneDevice(ground, entry)) return []
  const demands = askOf(ground.pinned.find(entry.body), entry.body.ask, 'countersign')?.other_device === true
  return [
    ...(entry.auth === 'picked' ? [found('picked_person', placeOf(entry), [hash])] : []),
    ...(demands ? [found('same_device', placeOf(entry), [hash])] : []),
  ]
}

/** Whether it was written on the device of something that it saw. */
function isOfOneDevice({ log }: Ground, entry: CountersignEntry): boolean {
  return entry.body.saw.some((hash) => log.everything.get(hash)?.device === entry.device)
}
