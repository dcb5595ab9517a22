/** What the office has entered as in use, as a step can offer it. */
import { type Standing, standingOf } from './calibration.ts'

export type ShelfLot = { readonly material: string; readonly lot: string; readonly expires: string }
export type ShelfInstrument = {
  readonly number: string
  readonly kind: string
  readonly calibrated_until: string
}

/** The lots of a material, the one that expires first on top, as it should be used up first. */
export function shelfLots(
  shelf: { readonly lots: readonly ShelfLot[] },
  material: string,
): readonly ShelfLot[] {
  const last = (day: string): string => day || '9999'
  return shelf.lots
    .filter((one) => one.material === material)
    .sort((a, b) => (last(a.expires) < last(b.expires) ? -1 : 1))
}

/** What an instrument's number and calibration are written as in a record, so that both can be read there. */
export function instrumentText({ number, kind, calibrated_until }: ShelfInstrument): string {
  const until = calibrated_until === '' ? '' : `, calibrated until ${calibrated_until}`
  return `${number}, ${kind}${until}`
}

/** How an instrument named in a text stands on a day; undefined where the text names none of the register. */
export function namedInstrument(
  text: string,
  instruments: readonly ShelfInstrument[],
  today: string,
): { readonly instrument: ShelfInstrument; readonly standing: Standing } | undefined {
  const words = text.toLowerCase().split(/[\s,;]+/)
  const instrument = instruments.find((one) =>
    one.number
      .toLowerCase()
      .split(/\s+/)
      .every((word) => words.includes(word)),
  )
  return instrument && { instrument, standing: standingOf(instrument.calibrated_until, today) }
}
