/** The `at` of a finding about an entry: the ids of what it is about. */
import { type Entry, isHeatOn, isKnown, isRunReading } from '../entries.ts'
import { trimmed } from './order.ts'
import { keyOf, registerPlace } from './registers.ts'

export function placeOf(entry: Entry): string[] {
  if (!isKnown(entry)) return []
  const key = keyOf(entry)
  return key === undefined ? placeOfSet(entry) : registerPlace(key)
}

function placeOfSet(entry: Entry): string[] {
  switch (entry.kind) {
    case 'lot':
    case 'countersign':
      return trimmed([entry.body.method, entry.body.step, entry.body.ask])
    case 'note':
    case 'deviation':
    case 'later':
      return trimmed([entry.body.method, entry.body.step])
    case 'photo':
      return trimmed([entry.body.method, entry.body.step, entry.body.slot])
    case 'tally':
      return [entry.body.position]
    case 'heat':
      return isHeatOn(entry.body)
        ? trimmed([entry.body.method, entry.body.step, entry.body.ask])
        : [entry.body.run]
    case 'reading':
      return isRunReading(entry.body) ? [entry.body.run] : []
    case 'clock':
    case 'heard':
      return [entry.device, String(entry.seq)]
    default:
      return []
  }
}
