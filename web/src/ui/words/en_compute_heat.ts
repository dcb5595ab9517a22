// Lines of a heat run's verdict on the page of a computation: in the words of the run's own page.
import type { Line } from '../../core/computations/shapes.ts'
import type { LineCode, Standing } from '../../core/live/verdict.ts'
import { quantityOf } from './en_compute_lines.ts'
import { runVerdictWords } from './en_verdict.ts'

export function heatLineWords({ code, at, values }: Line): string {
  const name = runVerdictWords.line[code.slice('heat_'.length) as LineCode]
  const standing = runVerdictWords.standing[at[0] as Standing]
  const figure = values.find((one) => one.name === 'figure')
  const limit = values.find((one) => one.name === 'limit')
  const told = figure === undefined ? '' : ` ${quantityOf(figure)}`
  const against = limit === undefined ? '' : `, ${runVerdictWords.limit(quantityOf(limit))}`
  return `${name}:${told}${against}, ${standing}`
}
