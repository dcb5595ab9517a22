/**
 * Which materials of the joint touch, how far apart they stand, and how careful to be, wet and dry.
 *
 * Five electromotive groups after Niu, Airframe Structural Design. The rivet touches the part and the flange; those
 * two touch only where the isolating glass ply is not sound. Model "galvanic-1".
 */
import type { ResultValue } from '../entries.ts'
import { exact } from './figures.ts'
import { lotLines } from './lots.ts'
import { find, type Question, word } from './question.ts'
import { type Answer, type Line, line, Refusal, verdictOf } from './shapes.ts'

const CARBON = 'carbon laminate'
const GROUPS = new Map([
  ['magnesium', 1],
  ['aluminium', 2],
  ['zinc', 2],
  ['steel', 3],
  ['stainless steel', 4],
  ['titanium', 4],
  [CARBON, 5],
])
const CAUTIONS = ['none', 'mild', 'moderate', 'strong'] as const
type Caution = (typeof CAUTIONS)[number]
const STRONG_BESIDE_CARBON = 2
const PAIRS = [
  ['rivet', 'part'],
  ['rivet', 'flange'],
  ['part', 'flange'],
] as const

export function galvanicPairs(asked: Question): Answer {
  const names = { part: word(asked, 'part'), flange: word(asked, 'flange'), rivet: word(asked, 'rivet') }
  for (const [name, material] of Object.entries(names)) {
    if (!GROUPS.has(material) && (material !== '' || name !== 'rivet')) throw new Refusal(name, 'no_group')
  }
  const ply = find(asked, 'glass_ply', 'chosen')
  const isolated = ply !== undefined && !ply.stop
  const values: ResultValue[] = []
  const lines: Line[] = names.rivet === '' ? [line('rivet_unsaid', 'ask')] : []
  for (const [first, second] of PAIRS) {
    if (names[first] === '' || names[second] === '') continue
    const touches = !(first === 'part' && second === 'flange' && isolated)
    values.push(exact(`${first}_${second}`, Math.abs(apart(names[first], names[second])), 'groups'))
    lines.push(
      touches
        ? pairLine(names[first], names[second])
        : line('isolated', 'note', [names[first], names[second]]),
    )
  }
  lines.push(...stops(names.rivet, [names.part, names.flange]))
  return {
    model: 'galvanic-1',
    values,
    verdict: verdictOf(lines),
    lines: [...lines, ...lotLines(asked, 'rivets')],
    sources: ['galvanic'],
  }
}

function apart(first: string, second: string): number {
  return (GROUPS.get(first) ?? 0) - (GROUPS.get(second) ?? 0)
}

function pairLine(first: string, second: string): Line {
  const groups = apart(first, second)
  const wet = cautionOf(first, second, Math.abs(groups))
  const anode = groups === 0 ? '' : groups < 0 ? first : second
  return line('pair', wet === 'strong' ? 'stop' : 'note', [first, second, wet, keptDry(wet), anode])
}

function cautionOf(first: string, second: string, groups: number): Caution {
  if (groups >= STRONG_BESIDE_CARBON && [first, second].includes(CARBON)) return 'strong'
  return CAUTIONS[Math.min(groups, CAUTIONS.length - 1)] ?? 'strong'
}

/** Dry and kept dry there is no electrolyte and so one word less; a strong pair stays strong. */
function keptDry(wet: Caution): Caution {
  return wet === 'strong' ? wet : (CAUTIONS[Math.max(0, CAUTIONS.indexOf(wet) - 1)] ?? wet)
}

function stops(rivet: string, sheets: readonly string[]): readonly Line[] {
  if (rivet === 'aluminium' && sheets.includes(CARBON)) return [line('maker_first', 'stop')]
  const nobler = rivet === '' ? [] : sheets.filter((sheet) => apart(sheet, rivet) > 1)
  return nobler.length > 0 ? [line('small_anode', 'stop', [rivet, ...nobler])] : []
}
