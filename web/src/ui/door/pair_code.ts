// What was typed as a pairing code: cleaned, and what is wrong with it before it is sent.

const ALPHABET = '23456789ABCDEFGHJKMNPQRSTVWXYZ'
export const CODE_LENGTH = 8

/** Upper case, without the blanks and dashes that people put between. */
export function cleanCode(typed: string): string {
  return typed.toUpperCase().replace(/[\s-]/g, '')
}

/** As it is shown while it is typed: in two groups of four. */
export function shownCode(typed: string): string {
  const code = cleanCode(typed).slice(0, CODE_LENGTH)
  return code.length > 4 ? `${code.slice(0, 4)} ${code.slice(4)}` : code
}

/** Letters that no code has, each once. */
export function strangeLetters(code: string): readonly string[] {
  return [...new Set(code)].filter((letter) => !ALPHABET.includes(letter))
}
