/** What a computation says about the lots that it rests on; a sheet's figures hold for its own product alone. */
import { find, type Question } from './question.ts'
import { type Line, line } from './shapes.ts'

export function lotLines(asked: Question, name: string): readonly Line[] {
  return (find(asked, name, 'lots')?.lots ?? []).flatMap(({ lot, wrong, expired }) => [
    ...(wrong ? [line('lot_wrong', 'note', [lot])] : []),
    ...(expired ? [line('lot_expired', 'note', [lot])] : []),
  ])
}
