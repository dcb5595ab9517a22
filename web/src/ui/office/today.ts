// The day of this computer, as a date field writes it.
export function todayOf(now_ms: number): string {
  const now = new Date(now_ms)
  const two = (n: number): string => String(n).padStart(2, '0')
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
}

/** A written day as an instant of this computer's noon, for words that say a date. */
export function noonOf(day: string): number {
  return new Date(`${day}T12:00:00`).getTime()
}
