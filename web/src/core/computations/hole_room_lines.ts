/** What is said of the room round a hole that goes up a size, or does not for want of room. */
import { exact, figure } from './figures.ts'
import type { AskedHole, Decision } from './hole_asked.ts'
import { FLANGE } from './hole_layers.ts'
import { worstOf } from './hole_room.ts'
import { type Line, line } from './shapes.ts'

/** The layer that is short, the neighbours that were checked, an edge to be read before drilling. */
export function roomLines(position: string, hole: AskedHole, { why }: Decision): readonly Line[] {
  const size = why.startsWith('own_') ? hole.nominal : hole.larger
  if (size === undefined) return []
  const isUp = why === 'worn'
  const isRead = hole.room.layers.some(({ name, isRead: read }) => name === FLANGE && read)
  return [
    ...(why.endsWith('edge_short') ? edgeLine(position, hole, size) : []),
    ...(isUp || why.endsWith('pitch_short')
      ? neighboursLine(position, hole, size, isUp ? 'neighbours_checked' : 'neighbours_short')
      : []),
    ...(isUp && !isRead ? [line('measure_room', 'stop', [position])] : []),
  ]
}

function edgeLine(position: string, { room }: AskedHole, size: number): readonly Line[] {
  const { name, edge, edgeDiameters } = worstOf(room, size)
  if (edge === undefined) return []
  const values = [
    exact('edge', edge.value, 'mm', edge.decimals),
    figure('minimum', edgeDiameters * size, 'mm', 2),
  ]
  return [line('layer_short', 'note', [position, name], values)]
}

function neighboursLine(position: string, { room }: AskedHole, size: number, code: string): readonly Line[] {
  const { found, neighbours } = room.pitch
  if (found === undefined || neighbours.length === 0) return []
  const values = [
    exact('pitch', found.value, 'mm', found.decimals),
    figure('minimum', room.pitchDiameters * size, 'mm', 2),
  ]
  return [line(code, 'note', [position, ...neighbours], values)]
}
