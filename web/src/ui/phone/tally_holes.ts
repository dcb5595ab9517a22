// What a position's sheet says of its hole: the decision, each layer's edge, the next hole, whom it concerns.
import { numberOf } from '../../core/computations/figures.ts'
import type { Layer } from '../../core/computations/hole_layers.ts'
import type { Measured } from '../../core/computations/hole_measured.ts'
import type { PositionState } from '../../core/state.ts'
import type { Card } from '../../core/views/card.ts'
import { besideHoles } from '../../core/views/hole_neighbours.ts'
import { drawnHoles, type HoleView, holesOf } from '../../core/views/holes_view.ts'
import { boardOf } from '../../core/views/map_view.ts'
import { decisionWords, hundredths, tenths } from '../parts/hole_words.ts'
import { holeWords } from '../words/en_holes.ts'
import { mapWords } from '../words/en_map.ts'
import { listed, quantity } from '../words/format.ts'

type Row = readonly [name: string, words: string]

function holeAt(card: Card, at: PositionState): HoleView | undefined {
  return holesOf(card).find(({ position }) => position === at.position)
}

/** Each layer's edge and the next hole, and whom it concerns. */
export function holeRows(card: Card, at: PositionState): readonly Row[] {
  const hole = holeAt(card, at)
  return [...(hole === undefined ? [] : roomRows(hole)), ...besideRows(card, at)]
}

export function decisionRows(card: Card, at: PositionState): readonly Row[] {
  const hole = holeAt(card, at)
  if (hole === undefined || (hole.found === undefined && !hole.isDamaged)) return []
  const rows: Row[] = [[holeWords.decision, decisionWords(hole)]]
  return hole.wantsRoom ? [...rows, ['', holeWords.readFirst]] : rows
}

/** For the rivet that the hole takes, or would take if it went up a size. */
function roomRows(hole: HoleView): readonly Row[] {
  const { room, word, nominal, larger } = hole
  const rivet = word === 'larger' || word === 'to_maker' ? (larger ?? nominal) : nominal
  const { found, isRead } = room.pitch
  return [
    ...room.layers.map((layer): Row => [holeWords.layer(layer.name), layerWords(layer, rivet)]),
    [holeWords.pitch, needsWords(found, isRead, room.pitchDiameters, rivet)],
  ]
}

function layerWords({ edge, isRead, edgeDiameters }: Layer, rivet: number): string {
  return needsWords(edge, isRead, edgeDiameters, rivet)
}

function needsWords(found: Measured | undefined, isRead: boolean, diameters: number, rivet: number): string {
  if (found === undefined) return holeWords.unknown
  const how = isRead ? holeWords.byReading : holeWords.byDrawing
  const least = diameters * rivet
  const said = holeWords.needs(
    quantity(found.value, found.decimals, 'mm'),
    hundredths(least),
    String(diameters),
    tenths(rivet),
    how,
  )
  return Math.round(numberOf(found) * 100) < Math.round(least * 100) ? `${said}: ${holeWords.short}` : said
}

function besideRows(card: Card, at: PositionState): readonly Row[] {
  const { drawing } = boardOf(card)
  if (drawing === undefined) return []
  const beside = besideHoles(card.state.positions, drawing.map, drawnHoles(card))
  return beside.flatMap(({ hole, neighbours, larger }): readonly Row[] => {
    if (hole === at.position) {
      const list = listed(neighbours)
      return larger
        ? [[holeWords.neighbours, holeWords.neighboursOf(list)]]
        : [[mapWords.besideName, mapWords.besideAgain(list)]]
    }
    if (!neighbours.includes(at.position)) return []
    return [[mapWords.besideName, larger ? holeWords.besideLarger(hole) : mapWords.besideOf(hole)]]
  })
}
