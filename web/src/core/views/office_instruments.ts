/** Instruments that a job's steps named, and those that were overdue for calibration on that day. */
import type { Entry } from '../entries.ts'
import { type MethodDoc, stepsOf } from '../method.ts'
import type { CardState } from '../state.ts'
import { namedInstrument, type ShelfInstrument } from './shelf_view.ts'

export type OverdueInstrument = {
  readonly step: string
  readonly title: string
  readonly said: string
  readonly until: string
  readonly entry: Entry
}

const WRITTEN = /calibrated until (\d{4}-\d{2}-\d{2})/

/** By the day that is written with the answer, else by the register. */
export function overdueInstruments(
  state: CardState,
  entries: ReadonlyMap<string, Entry>,
  methods: readonly MethodDoc[],
  instruments: readonly ShelfInstrument[],
): readonly OverdueInstrument[] {
  return state.registers.flatMap((register) => {
    const entry = register.kind === 'text' ? entries.get(register.shown) : undefined
    const method = methods.find((one) => one.id === register.method)
    const step = method && stepsOf(method).find((one) => one.id === register.step)
    const ask = step?.asks.find((one) => one.id === register.ask)
    if (entry?.kind !== 'text' || step === undefined || ask?.kind !== 'text' || ask.of !== 'instrument')
      return []
    const said = entry.body.value
    const day = new Date(entry.at_ms).toISOString().slice(0, 10)
    const until =
      WRITTEN.exec(said)?.[1] ?? namedInstrument(said, instruments, day)?.instrument.calibrated_until
    return until !== undefined && until !== '' && until < day
      ? [{ step: step.id, title: step.title, said, until, entry }]
      : []
  })
}
