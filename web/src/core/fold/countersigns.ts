/** Whether a countersign counts, and if not, why. */
import type { Entry } from '../entries.ts'
import type { CountersignState, CountersignWhy } from '../state.ts'
import { registersOfAsk } from './answers.ts'
import { asksAsked } from './asked.ts'
import type { Ground } from './ground.ts'
import { isStruck, ofKind, unstruck } from './log.ts'
import { askOf, type PinnedStep, positionsOf } from './revisions.ts'

export type CountersignEntry = Extract<Entry, { kind: 'countersign' }>
type Deviation = Extract<Entry, { kind: 'deviation' }>

/** All countersigns under the pinned revision, struck ones too, sorted by hash. */
export function countersignsOf(ground: Ground): CountersignState[] {
  return ofKind(ground.log, 'countersign')
    .filter((entry) => ground.pinned.answers(entry.body) || isStruck(ground.log, entry.hash))
    .map((entry) => ({ hash: entry.hash, why: whyVoid(ground, entry) }))
    .map(({ hash, why }) => ({ hash, counts: why === '', why }))
}

function whyVoid(ground: Ground, entry: CountersignEntry): CountersignWhy {
  if (isStruck(ground.log, entry.hash)) return 'struck'
  if (entry.body.saw.some((hash) => ground.log.everything.get(hash)?.by === entry.by)) return 'own_value'
  const one = ground.pinned.find(entry.body)
  const demand = demandOf(one, entry)
  if (demand === undefined || !meets(entry, demand)) return 'demand'
  if (entry.body.ask === '') return whyBesideDeviation(ground, entry)
  return one === undefined ? 'demand' : whyIncomplete(ground, one, entry)
}

/** What the countersign's person must hold, empty for nothing; undefined where nobody asks for it. */
function demandOf(one: PinnedStep | undefined, { body }: CountersignEntry): string | undefined {
  if (body.ask === '') return one?.step.hold_countersign
  return askOf(one, body.ask, 'countersign')?.of
}

function meets(entry: CountersignEntry, demand: string): boolean {
  if (demand === '') return true
  return entry.as.includes(demand === 'second_person' ? 'technician' : demand)
}

/** Of a deviation that passes the hold: it must name one that is unstruck. */
function whyBesideDeviation(ground: Ground, { body }: CountersignEntry): CountersignWhy {
  const named = ofKind(ground.log, 'deviation').filter(
    (entry) => body.saw.includes(entry.hash) && passes(entry, body),
  )
  if (named.some((entry) => !isStruck(ground.log, entry.hash))) return ''
  return named.length > 0 ? 'superseded' : 'missing'
}

function passes({ body }: Deviation, at: { readonly method: string; readonly step: string }): boolean {
  return body.passes_hold && body.method === at.method && body.step === at.step
}

/** Deviations that pass the hold of a step. */
export function passingDeviations(ground: Ground, one: PinnedStep): readonly Deviation[] {
  const at = { method: one.method.id, step: one.step.id }
  return unstruck(ground.log, 'deviation').filter(
    (entry) => passes(entry, at) && ground.pinned.answers(entry.body),
  )
}

/** What a countersign must name, and what it may have named in its place before. */
type Wanted = { readonly hash: string; readonly rivals: () => readonly { readonly hash: string }[] }

function whyIncomplete(ground: Ground, one: PinnedStep, { body }: CountersignEntry): CountersignWhy {
  const saw = new Set(body.saw)
  const unseen = wantedOf(ground, one).filter(({ hash }) => !saw.has(hash))
  if (unseen.length === 0) return ''
  return unseen.some(({ rivals }) => rivals().some((rival) => saw.has(rival.hash))) ? 'superseded' : 'missing'
}

function wantedOf(ground: Ground, one: PinnedStep): Wanted[] {
  return asksAsked(ground, one).flatMap((ask) =>
    ask.kind === 'tally'
      ? positionsOf(one, ask.group).flatMap((position) => wantedAt(ground, position))
      : registersOfAsk(ground, one, ask).flatMap((register) =>
          register?.answer === undefined
            ? []
            : { hash: register.answer.hash, rivals: () => register.entries },
        ),
  )
}

function wantedAt(ground: Ground, position: string): Wanted[] {
  const deciding = ground.tally.positions.find((each) => each.position === position)?.deciding ?? ''
  if (deciding === '') return []
  const rivals = () =>
    ofKind(ground.log, 'tally').filter(({ body }) => body.position === position && 'state' in body)
  return [{ hash: deciding, rivals }]
}
