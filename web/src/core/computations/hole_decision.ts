/**
 * What the worst hole allows: use it, open it, take the next size, or ask the maker. Model "hole-1".
 *
 * One figure for all: the largest diameter and the largest ovality count as one hole, the worst there can be; measured
 * at several positions, each is decided by itself. A hole that is marked damaged goes to the maker's rule.
 */
import type { ResultValue } from '../entries.ts'
import { difference, exact, figure } from './figures.ts'
import { askedHole, type Decision, decide, nextSizeNeeds } from './hole_asked.ts'
import { holeByHole } from './hole_by_hole.ts'
import { measuredHole, positionsOf } from './hole_measured.ts'
import type { Question } from './question.ts'
import { type Answer, type Line, line } from './shapes.ts'

export function holeDecision(asked: Question): Answer {
  return positionsOf(asked).length === 0 ? worst(asked) : holeByHole(asked)
}

function worst(asked: Question): Answer {
  const measured = measuredHole(asked)
  const { largest, ovality } = measured
  const hole = askedHole(asked, measured)
  const damaged = asked.damaged ?? []
  const decision = decide(hole)
  const limit = figure('ovality_allowed', hole.ovalityAllowed, 'mm', 2)
  const lines: Line[] = [
    line(decision.code, decision.code === 'reuse' ? 'note' : 'stop', decision.why ? [decision.why] : [], [
      limit,
    ]),
    ...nextSizeNeeds(hole),
    ...(damaged.length > 0 ? [line('damaged_holes', 'stop', damaged)] : []),
  ]
  return {
    model: 'hole-1',
    values: [
      exact('largest', largest.value, 'mm', largest.decimals),
      difference('smallest', largest, ovality, 'mm'),
      figure('hole_from', hole.range[0], 'mm', 2),
      figure('hole_to', hole.range[1], 'mm', 2),
      exact('damaged', damaged.length, 'pcs'),
      ...decided(decision),
    ],
    verdict: decision.code === 'reuse' && damaged.length === 0 ? 'inside' : 'outside',
    lines,
    sources: ['hole', 'edge_metal'],
  }
}

function decided({ rivet, drillTo }: Decision): readonly ResultValue[] {
  return [
    ...(rivet === undefined ? [] : [figure('rivet', rivet, 'mm', 1)]),
    ...(drillTo === undefined ? [] : [figure('drill_to', drillTo, 'mm', 2)]),
  ]
}
