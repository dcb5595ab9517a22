/**
 * Bondline from the gaps of the dry fit, or the bead for it with cartridges and mixers. Models "bead-1".
 *
 * The plain mean of the gaps counts: the method names the stations and not how far apart they are. A bead is a
 * triangle, b h / 2; 1000 mm3 are 1 mL.
 */
import { exact, figure, isOver, left, numberOf, type Scaled } from './figures.ts'
import type { Earlier } from './inputs.ts'
import { figureOf } from './pick_list.ts'
import { find, points, type Question, quantity, want } from './question.ts'
import { type Answer, type Line, line, Refusal, verdictOf } from './shapes.ts'

const MM3_PER_ML = 1000

export function beadVolume(asked: Question): Answer {
  return find(asked, 'gaps', 'points') === undefined ? bead(asked) : bondline(asked)
}

function bondline(asked: Question): Answer {
  const gaps = points(asked, 'gaps')
  const [thinnest, thickest] = [quantity(asked, 'thinnest'), quantity(asked, 'thickest')]
  const mm = [...gaps.values()].map(numberOf)
  const mean = mm.reduce((sum, one) => sum + one, 0) / mm.length
  const [length, width] = [numberOf(quantity(asked, 'length')), numberOf(quantity(asked, 'width'))]
  const where = (is: (gap: Scaled) => boolean) =>
    [...gaps].filter(([, gap]) => is(gap)).map(([point]) => point)
  const thin = where((gap) => isOver(thinnest, gap))
  const thick = where((gap) => isOver(gap, thickest))
  const limit = (one: typeof thinnest) => [exact('limit', one.value, one.unit, one.decimals)]
  const lines: Line[] = [line('plain_mean')]
  if (thin.length > 0) lines.push(line('too_thin', 'stop', thin, limit(thinnest)))
  if (thick.length > 0) lines.push(line('too_thick', 'stop', thick, limit(thickest)))
  return {
    model: 'bead-1',
    values: [
      figure('bondline_mean', mean, 'mm', 2),
      figure('bondline_min', Math.min(...mm), 'mm', 2),
      figure('bondline_max', Math.max(...mm), 'mm', 2),
      figure('volume', (width * mean * length) / MM3_PER_ML, 'mL', 1),
    ],
    verdict: verdictOf(lines),
    lines,
    sources: ['bondline'],
  }
}

function bead(asked: Question): Answer {
  const room = want(asked, 'bondline', 'earlier')
  const [wanted, mean, widest] = [
    roomFigure(room, 'volume'),
    roomFigure(room, 'bondline_mean'),
    roomFigure(room, 'bondline_max'),
  ]
  const [width, height] = [aboveZero(asked, 'bead_width'), aboveZero(asked, 'bead_height')]
  const laid = (((width * height) / 2) * aboveZero(asked, 'length')) / MM3_PER_ML
  const usable = numberOf(quantity(asked, 'cartridge')) - numberOf(quantity(asked, 'left_in_mixer'))
  if (usable <= 0) throw new Refusal('cartridge', 'all_waste')
  const count = left(laid / usable)
  const missing = figure('missing', Math.max(0, wanted - laid), 'mL', 1)
  const more = Math.max(0, (wanted * widest) / mean - laid)
  const atWidest = figure('missing_at_widest', (more / laid) * 100, '%', 0)
  const lines: Line[] = [line('one_spare')]
  if (missing.value > 0) lines.push(line('bead_too_small', 'stop', [], [missing]))
  else if (atWidest.value > 0) {
    lines.push(line('thin_at_widest', 'note', [], [figure('widest', widest, 'mm', 2), atWidest]))
  }
  return {
    model: 'bead-1',
    values: [
      figure('bead', laid, 'mL', 1),
      figure('bondline_volume', wanted, 'mL', 1),
      figure('squeeze_out', Math.max(0, ((laid - wanted) / laid) * 100), '%', 0),
      exact('cartridges', count, 'pcs'),
      exact('mixers', count, 'pcs'),
      figure('left_over', count * usable - laid, 'mL', 1),
    ],
    verdict: verdictOf(lines),
    lines,
    sources: ['geometry'],
  }
}

function aboveZero(asked: Question, name: string): number {
  const found = quantity(asked, name)
  if (found.value <= 0) throw new Refusal(name, 'not_above_zero')
  return numberOf(found)
}

function roomFigure(room: Earlier, name: string): number {
  const found = figureOf(room, name)
  if (found === undefined || found.value <= 0) throw new Refusal('bondline', 'no_bondline')
  return numberOf(found)
}
