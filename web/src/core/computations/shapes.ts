/** What an answer is made of: figures as whole numbers of a unit, lines as codes with figures, a verdict. */
import type { ResultValue } from '../entries.ts'

export type Verdict = 'inside' | 'outside' | 'none'
/** `note` explains, `ask` wants a person's decision with a reason, `stop` says why the verdict is outside. */
export type Tone = 'note' | 'ask' | 'stop'
export type Line = {
  readonly code: string
  readonly tone: Tone
  readonly at: readonly string[]
  readonly values: readonly ResultValue[]
}
export type Answer = {
  readonly model: string
  readonly values: readonly ResultValue[]
  readonly verdict: Verdict
  readonly lines: readonly Line[]
  /** Codes of where its rules come from. */
  readonly sources: readonly string[]
}

/** An input that no computation may answer for: its name, and the code of what is wrong with it. */
export class Refusal extends Error {
  readonly field: string
  readonly code: string
  constructor(field: string, code: string) {
    super(`${field}: ${code}`)
    this.field = field
    this.code = code
  }
}

export function line(
  code: string,
  tone: Tone = 'note',
  at: readonly string[] = [],
  values: readonly ResultValue[] = [],
): Line {
  return { code, tone, at, values }
}

/** Outside where a line says why. */
export function verdictOf(lines: readonly Line[]): Verdict {
  return lines.some((one) => one.tone === 'stop') ? 'outside' : 'inside'
}

/** Whether a person has to decide, though nothing may be over a limit. */
export function asks(answer: Answer): boolean {
  return answer.lines.some((one) => one.tone === 'ask')
}
