/**
 * Pieces against rivets: what the map says, and what somebody counted in the tray. Model "tally-1".
 *
 * Taking out: each kind of piece by itself. Setting: one spent mandrel for every rivet that was set, replaced ones
 * too.
 */
import type { Piece, ResultValue } from '../entries.ts'
import { type Rivet, TALLY_MODEL, tallyReconciliation, tallyValues } from '../tally.ts'
import { exact } from './figures.ts'
import type { Rivets } from './inputs.ts'
import { find, type Question, want } from './question.ts'
import { type Answer, type Line, line, verdictOf } from './shapes.ts'

const COUNTED = { head: 'heads', mandrel: 'mandrels', shank: 'shanks' } as const
const PIECES: readonly Piece[] = ['head', 'mandrel', 'shank']
const BEFORE_SET = ['', 'hole_checked', 'rivet_seated']

export function reconciliation(asked: Question): Answer {
  const rivets = want(asked, 'tallies', 'rivets')
  const { values, lines } = rivets.ladder === 'setting' ? wereSet(asked, rivets) : takenOut(asked, rivets)
  return { model: TALLY_MODEL, values, verdict: verdictOf(lines), lines, sources: ['counting'] }
}

type Counted = { readonly values: readonly ResultValue[]; readonly lines: readonly Line[] }

function takenOut(asked: Question, rivets: Rivets): Counted {
  const found = tallyReconciliation(rivets.rivets)
  const values: ResultValue[] = tallyValues(found)
  const lines: Line[] = [...positionLines(asked)]
  for (const piece of PIECES) {
    const { difference, lost, taken } = found.pieces[piece]
    if (lost > 0) lines.push(line(`lost_${piece}`, 'stop', whereLost(rivets, piece)))
    if (difference + lost !== 0) lines.push(line(`differs_${piece}`, 'stop'))
    const counted = find(asked, COUNTED[piece], 'quantity')
    if (counted === undefined) continue
    const inTray = exact(`counted_${piece}`, counted.value, 'pieces')
    values.push(inTray)
    if (counted.value === taken) continue
    lines.push(line(`tray_differs_${piece}`, 'stop', [], [inTray, exact('taken', taken, 'pieces')]))
  }
  return { values, lines }
}

function wereSet(asked: Question, { rivets }: Rivets): Counted {
  const set = rivets.filter((one) => one.generation > 0 && !BEFORE_SET.includes(one.state))
  const replaced = [...new Set(set.filter((one) => isReplaced(one, set)).map((one) => one.position))].sort()
  const positions = (asked.groups ?? []).flatMap((group) => group.positions)
  const missing = positions.filter((position) => !set.some((one) => one.position === position))
  const owed = exact('owed_mandrel', set.length, 'pieces')
  const values: ResultValue[] = [exact('positions', positions.length, 'pcs'), owed]
  const lines: Line[] = [...positionLines(asked)]
  if (missing.length > 0) lines.push(line('not_set', 'stop', missing))
  if (replaced.length > 0) lines.push(line('replaced', 'note', replaced))
  const counted = find(asked, 'mandrels', 'quantity')
  if (counted !== undefined) {
    const spent = exact('counted_mandrel', counted.value, 'pieces')
    values.push(spent, exact('difference_mandrel', spent.value - owed.value, 'pieces'))
    if (spent.value !== owed.value) lines.push(line('spent_differs', 'stop', [], [spent, owed]))
  }
  return { values, lines }
}

function isReplaced(rivet: Rivet, set: readonly Rivet[]): boolean {
  return set.some((other) => other.position === rivet.position && other.generation > rivet.generation)
}

function whereLost({ rivets }: Rivets, piece: Piece): readonly string[] {
  return rivets.filter((one) => one.lost.includes(piece)).map((one) => one.position)
}

/** Heads that were found and numbered, against the positions of the groups. */
function positionLines(asked: Question): readonly Line[] {
  const found = find(asked, 'positions', 'quantity')
  const onMap = (asked.groups ?? []).reduce((sum, group) => sum + group.positions.length, 0)
  if (found === undefined || found.value === onMap) return []
  const both = [exact('found', found.value, 'pcs'), exact('counted', onMap, 'pcs')]
  return [line('positions_differ', 'stop', [], both)]
}
