/** The lines of a text around one of them, with their numbers from 1. */
export type NumberedLine = { readonly number: number; readonly text: string }

const BESIDE = 1

/** Empty for line 0, which is the whole file, and for a line that is not there. */
export function linesAround(text: string, line: number): readonly NumberedLine[] {
  const lines = text.split(/\r?\n/)
  if (line < 1 || line > lines.length) return []
  const from = Math.max(1, line - BESIDE)
  const until = Math.min(lines.length, line + BESIDE)
  return lines.slice(from - 1, until).map((one, at) => ({ number: from + at, text: one }))
}
