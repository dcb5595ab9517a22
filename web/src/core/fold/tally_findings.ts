/** Findings of the tally: lost pieces, damaged holes, marks that name no lost, positions nobody knows. */
import { type Found, found } from './finding.ts'
import type { Ground } from './ground.ts'
import { grouped, hashesOf } from './order.ts'
import type { Spot } from './tally.ts'

export function tallyFindings(ground: Ground): Found[] {
  const spots = [...ground.tally.spots.values()]
  return [...spots.flatMap(markFindings), ...spots.flatMap(gaps), ...unknownPositions(ground, spots)]
}

function markFindings(spot: Spot): Found[] {
  const losts = new Set(spot.marks.filter((mark) => mark.mark === 'lost').map((mark) => mark.hash))
  return spot.entries.flatMap((entry) => {
    if (!('mark' in entry.body)) return []
    const at = [spot.position]
    if (entry.body.mark === 'damaged_hole') return found('damaged_hole', at, [entry.hash])
    if (entry.body.mark === 'found') {
      return losts.has(entry.body.lost) ? [] : found('found_without_lost', at, [entry.hash])
    }
    const isOpen = spot.marks.some((mark) => mark.hash === entry.hash && mark.open)
    return isOpen ? found('lost_piece', at, [entry.hash]) : []
  })
}

/** A second or later rivet set where the one before it was never recorded. */
function gaps(spot: Spot): Found[] {
  const byGeneration = grouped(spot.entries, (entry) => entry.body.generation)
  return [...byGeneration]
    .filter(([generation]) => generation > 1 && !byGeneration.has(generation - 1))
    .map(([, entries]) => found('position_beyond', [spot.position], hashesOf(entries)))
}

/** Judged only when all pinned methods are held, since a missing one may list the position. */
function unknownPositions({ pinned, tally }: Ground, spots: readonly Spot[]): Found[] {
  if (pinned.digests.length === 0 || pinned.missing.length > 0) return []
  const known = new Set(tally.positions.map((each) => each.position))
  return spots
    .filter((spot) => !known.has(spot.position))
    .map((spot) => found('unknown_position', [spot.position], hashesOf(spot.entries)))
}
