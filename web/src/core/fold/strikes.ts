/** Who may strike what: one's own; any with `office` in `as`; never a strike. That a reason is given, schemas demand. */
import type { Entry } from '../entries.ts'

export type StrikeEntry = Extract<Entry, { kind: 'strike' }>

export function strikeWorks(strike: StrikeEntry, target: Entry): boolean {
  if (target.v === 1 && target.kind === 'strike') return false
  return strike.by === target.by || strike.as.includes('office')
}
