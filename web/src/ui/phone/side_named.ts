// Which side of the vehicle a slot's words name: the wrong one is the commonest mistake of a sharp picture.
import type { PhotoAsk } from '../../core/method.ts'
import { photoWords } from '../words/en_photo.ts'

/** Only where the words name one side and not the other. */
export function sideNamed({ name, show, framing = '' }: PhotoAsk): 'left' | 'right' | undefined {
  const words = `${name} ${show} ${framing}`
  const [left, right] = [photoWords.sides.left.test(words), photoWords.sides.right.test(words)]
  if (left === right) return undefined
  return left ? 'left' : 'right'
}
