/** The count of rivets: every position in one place, and the pieces owed and lost. */
import { LADDER } from '../method.ts'
import type { CardState, PieceCounts, PlaceInCount, PositionState } from '../state.ts'
import { drawingOf, type MapDrawing } from './map_view.ts'
import type { JobLog } from './office_log.ts'
import { pinnedMethods } from './office_names.ts'

export type PlaceCount = { readonly place: PlaceInCount; readonly count: number }
export type GroupTally = {
  readonly group: string
  readonly name: string
  readonly counts: readonly PlaceCount[]
  readonly positions: readonly PositionState[]
}
export type TallyView = {
  readonly total: number
  readonly toAccountFor: number
  readonly owed: PieceCounts
  readonly lost: PieceCounts
  readonly damagedHoles: readonly string[]
  readonly groups: readonly GroupTally[]
  /** The drawing with the positions, where a pinned method has one. */
  readonly drawing: MapDrawing | undefined
}

const PLACES: readonly PlaceInCount[] = ['lost', ...LADDER, 'untouched']

function countsOf(positions: readonly PositionState[]): readonly PlaceCount[] {
  return PLACES.map((place) => ({
    place,
    count: positions.filter((one) => one.place === place).length,
  })).filter((one) => one.count > 0)
}

export function tallyView(log: JobLog, state: CardState): TallyView {
  const names = new Map(
    pinnedMethods(log, state).flatMap((method) => method.groups.map((one) => [one.id, one.name])),
  )
  const groups = [...new Set(state.positions.map((position) => position.group))].map((group) => {
    const positions = state.positions.filter((position) => position.group === group)
    return { group, name: names.get(group) ?? group, counts: countsOf(positions), positions }
  })
  const damaged = state.positions.filter((one) =>
    one.marks.some((mark) => mark.mark === 'damaged_hole' && mark.open),
  )
  return {
    total: state.positions.length,
    toAccountFor: state.positions.filter((position) => position.place === 'lost').length,
    owed: state.pieces.owed,
    lost: state.pieces.lost,
    damagedHoles: damaged.map((position) => position.position),
    groups,
    drawing: pinnedMethods(log, state)
      .map(drawingOf)
      .find((one) => one !== undefined),
  }
}
