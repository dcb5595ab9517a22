// Every number, time, duration and list that a screen shows is written here, with its unit.

const NARROW = '\u202f'
const SPACE = '\u00a0'
const MINUS = '\u2212'
const DAY_MS = 86_400_000

/** Unit ids of methods and how they are printed; what is not listed prints as itself. */
const UNITS: Record<string, string> = {
  C: '°C',
  degC: '°C',
  Ohm: 'Ω',
  ohm: 'Ω',
  Mohm: 'MΩ',
  pct: '%',
  um: 'µm',
}

export function unitName(unit: string): string {
  return UNITS[unit] ?? unit
}

/** A whole number with its thousands apart: 1 300. */
export function count(n: number): string {
  const digits = String(Math.abs(n)).replace(/\B(?=(\d{3})+$)/g, NARROW)
  return n < 0 ? MINUS + digits : digits
}

/** An integer scaled by `decimals` (0 to 3) as digits: scaled(-35, 1) = −3.5. */
export function scaled(value: number, decimals: number): string {
  const digits = String(Math.abs(value)).padStart(decimals + 1, '0')
  const whole = count(Number(digits.slice(0, digits.length - decimals)))
  const sign = value < 0 ? MINUS : ''
  return decimals === 0 ? sign + whole : `${sign}${whole}.${digits.slice(-decimals)}`
}

/** A reading with its unit; a no-break space stands between. */
export function quantity(value: number, decimals: number, unit: string): string {
  return unit === '' ? scaled(value, decimals) : `${scaled(value, decimals)}${SPACE}${unitName(unit)}`
}

function two(n: number): string {
  return String(n).padStart(2, '0')
}

/** A countdown: minutes and seconds to 59:59, then hours and minutes. Sign is the caller's affair. */
export function countdown(ms: number): string {
  const seconds = Math.floor(Math.abs(ms) / 1000)
  if (seconds < 3600) return `${Math.floor(seconds / 60)}:${two(seconds % 60)}`
  return `${Math.floor(seconds / 3600)}${SPACE}h${SPACE}${two(Math.floor((seconds % 3600) / 60))}`
}

/** A duration in words: 45 s, 12 min, 1 h 12 min. */
export function duration(ms: number): string {
  const seconds = Math.round(Math.abs(ms) / 1000)
  if (seconds < 120) return `${seconds}${SPACE}s`
  const minutes = Math.floor(seconds / 60)
  if (minutes < 60)
    return seconds % 60 === 0 ? `${minutes}${SPACE}min` : `${minutes}${SPACE}min ${seconds % 60}${SPACE}s`
  const hours = `${Math.floor(minutes / 60)}${SPACE}h`
  return minutes % 60 === 0 ? hours : `${hours} ${minutes % 60}${SPACE}min`
}

const MINUTE_MS = 60_000

/** Whole minutes from two on: on a page that asks every few seconds, seconds only flicker. */
export function wholeMinutes(ms: number): number {
  return ms < 2 * MINUTE_MS ? Math.max(0, ms) : Math.floor(ms / MINUTE_MS) * MINUTE_MS
}

/** Time of day on the wall: 14:06. */
export function clockTime(at_ms: number): string {
  const at = new Date(at_ms)
  return `${two(at.getHours())}:${two(at.getMinutes())}`
}

const LONG_DAY = new Intl.DateTimeFormat('en-GB', { weekday: 'long', day: 'numeric', month: 'long' })
const SHORT_DAY = new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric', month: 'short' })
const DAY = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short' })
const DATE = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' })

export function longDay(at_ms: number): string {
  return LONG_DAY.format(at_ms)
}

export function date(at_ms: number): string {
  return DATE.format(at_ms)
}

/** The day without its weekday, for a narrow column: 24 Nov. */
export function shortDay(at_ms: number): string {
  return DAY.format(at_ms)
}

export function isToday(at_ms: number, now_ms: number): boolean {
  return new Date(at_ms).toDateString() === new Date(now_ms).toDateString()
}

/** The time alone if it is today, else with its day; `now_ms` decides what today is. */
export function when(at_ms: number, now_ms: number): string {
  return isToday(at_ms, now_ms) ? clockTime(at_ms) : `${SHORT_DAY.format(at_ms)}, ${clockTime(at_ms)}`
}

/** Day, year and time: for what may be years old. */
export function dateAndTime(at_ms: number): string {
  return `${date(at_ms)}, ${clockTime(at_ms)}`
}

export function daysBetween(from_ms: number, to_ms: number): number {
  return Math.floor((to_ms - from_ms) / DAY_MS)
}

export function bytes(n: number): string {
  const steps = ['B', 'KB', 'MB', 'GB']
  let left = n
  let step = 0
  while (left >= 1000 && step < 3) {
    left /= 1000
    step += 1
  }
  return `${step === 0 || left >= 100 ? Math.round(left) : left.toFixed(1)}${SPACE}${steps[step]}`
}

const NUMBER_WORDS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
]

/** Small numbers as words, for sentences: three; from 13 on as digits. */
export function numberWord(n: number): string {
  return NUMBER_WORDS[n] ?? count(n)
}

export function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1)
}

export function plural(n: number, one: string, many: string): string {
  return n === 1 ? one : many
}

/** A figure and its unit stay on one line: '12 V', '400 mm'. */
export function glued(text: string): string {
  return text.replace(/(\d) (?=[A-Za-z%°]{1,3}\b)/g, `$1${SPACE}`)
}

/** a, b and c. */
export function listed(items: readonly string[], last = 'and'): string {
  if (items.length < 2) return items.join('')
  return `${items.slice(0, -1).join(', ')} ${last} ${items.at(-1)}`
}

/** A digest or fingerprint in groups of four, to be compared by eye. */
export function grouped(hex: string): string {
  return hex.replace(/(.{4})(?=.)/g, '$1 ')
}

export function firstName(name: string): string {
  return name.split(' ')[0] ?? name
}
