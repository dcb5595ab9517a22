// A file's own name as the server takes it: one line without control characters, and not too long.
export const NAME_LENGTH = 100

/** `or`: where nothing is left of it. */
export function fileName(name: string, or: string): string {
  const plain = name.replace(/[^\P{C}]/gu, ' ').trim()
  return [...plain].slice(0, NAME_LENGTH).join('').trim() || or
}
