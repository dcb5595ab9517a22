// A printed day, as a date field writes it, and the instant at which it ends.

/** Midnight at the end of the printed day, so that a lot is good on its last day. */
export function endOfDay(day: string): number {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number)
  return day === '' ? 0 : new Date(year, month - 1, date + 1).getTime() - 1
}

/** The day that ends at this instant, as a date field wants it. */
export function dayOf(end_ms: number): string {
  if (end_ms === 0) return ''
  const end = new Date(end_ms)
  const two = (n: number) => String(n).padStart(2, '0')
  return `${end.getFullYear()}-${two(end.getMonth() + 1)}-${two(end.getDate())}`
}
