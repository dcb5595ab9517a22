/** Lots, and which of them are wrong or expired. */
import type { Entry } from '../entries.ts'
import type { LotAsk } from '../method.ts'
import type { LotState } from '../state.ts'
import { isAsked } from './asked.ts'
import type { Ground } from './ground.ts'
import { unstruck } from './log.ts'
import { grouped, hashesOf } from './order.ts'
import { askName } from './revisions.ts'

export type LotEntry = Extract<Entry, { kind: 'lot' }>

/** Every lot ask of the pinned methods: the lots that stand there, and those of them that are marked. */
export function lotsOf(ground: Ground): LotState[] {
  const answering = unstruck(ground.log, 'lot').filter((lot) => answers(ground, lot))
  const byAsk = grouped(answering, ({ body }) => askName(body))
  return ground.pinned.steps.flatMap((one) =>
    one.step.asks
      .filter((ask) => ask.kind === 'lot')
      .map((ask) => {
        const at = { method: one.method.id, step: one.step.id, ask: ask.id }
        const lots = byAsk.get(askName(at)) ?? []
        const marked = isAsked(ground, one, ask) ? lots.filter((lot) => isMarked(lot, ask)) : []
        return { ...at, answers: hashesOf(lots), marked: hashesOf(marked) }
      }),
  )
}

function answers({ log, pinned }: Ground, lot: LotEntry): boolean {
  return !log.sentBack.has(lot.hash) && pinned.answers(lot.body)
}

function isMarked(lot: LotEntry, ask: LotAsk): boolean {
  return isWrongLot(lot, ask) || isExpired(lot)
}

export function isWrongLot(lot: LotEntry, ask: LotAsk): boolean {
  return lot.body.material !== ask.of
}

export function isExpired(lot: LotEntry): boolean {
  return lot.body.expires_ms !== 0 && lot.at_ms > lot.body.expires_ms
}
