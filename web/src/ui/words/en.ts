// The message catalogue of the phone and of what phone and office share: every visible word, by area.
import { card } from './en_card.ts'
import { common, states } from './en_common.ts'
import { phone } from './en_phone.ts'

/** Another language is another object of this shape. */
export const w = { common, states, card, phone }

export type Words = typeof w
