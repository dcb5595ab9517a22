/** The smallest edge distance against its minimum in rivet diameters. Model "edge-1". */
import { difference, exact, figure, isOver, numberOf } from './figures.ts'
import { type Question, quantity } from './question.ts'
import { type Answer, line, Refusal, verdictOf } from './shapes.ts'

const IN_LAMINATE = 3

export function edgeDistance(asked: Question): Answer {
  const [edge, nominal, least] = [
    quantity(asked, 'edge'),
    quantity(asked, 'nominal'),
    quantity(asked, 'least'),
  ]
  if (nominal.value <= 0) throw new Refusal('nominal', 'not_above_zero')
  const minimum = exact('minimum', nominal.value * least.value, 'mm', nominal.decimals + least.decimals)
  const room = difference('room', edge, minimum, 'mm')
  const lines = isOver(minimum, edge) ? [line('edge_short', 'stop', [], [room, minimum])] : []
  return {
    model: 'edge-1',
    values: [minimum, room, figure('in_diameters', numberOf(edge) / numberOf(nominal), 'diameters', 2)],
    verdict: verdictOf(lines),
    lines,
    sources: [numberOf(least) < IN_LAMINATE ? 'edge_metal' : 'edge_laminate'],
  }
}
