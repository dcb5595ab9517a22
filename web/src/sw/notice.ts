/** What a push shows on a locked screen: the moment and nothing about a person, a vehicle or a job. */

export type Notice = {
  readonly title: string
  readonly body: string
  readonly tag: string
  /** The next one of a run sounds again, though it takes the place of the one before. */
  readonly renotify: true
  readonly data: { readonly path: string }
}

const TITLES: Readonly<Record<string, string>> = {
  due: 'Due now',
  five_min: 'Due in 5 minutes',
  one_min: 'Due in 1 minute',
  overdue: 'Overdue',
  over_maximum: 'Over the maximum',
  waits: 'Waits for your name',
  now: 'This phone can be called',
}
const BODIES: Readonly<Record<string, string>> = {
  read: 'Heat run: read the sensors.',
  soaked: 'Heat run: the soak should be over. Readings decide.',
  turn_down: 'Heat run: turn the next pad down.',
  sign: 'A hold point waits to be countersigned.',
  rehearsal: 'You asked for this call. It is no safety alarm.',
}
const PLAIN = 'News on a job card'

/** The push carries `{job, kind, act, moment, path}`; anything else, or nothing, is shown as plain news. */
export function noticeOf(text: string): Notice {
  const told = sent(text)
  const of = (name: string): string => (typeof told[name] === 'string' ? told[name] : '')
  const path = ownPath(told.path)
  return {
    title: TITLES[of('moment')] ?? PLAIN,
    body: BODIES[of('act')] ?? BODIES[of('kind')] ?? 'Open the job card.',
    // One notice a run and act: overdue takes the place of due.
    tag: [of('job'), of('kind'), of('act'), path].join(' ').trim() || 'news',
    renotify: true,
    data: { path },
  }
}

function sent(text: string): Readonly<Record<string, unknown>> {
  try {
    const told: unknown = JSON.parse(text)
    return typeof told === 'object' && told !== null ? (told as Record<string, unknown>) : {}
  } catch {
    return {} // no JSON: an empty push still has to show something
  }
}

/** Only a path of this origin: a push must not open another site. */
function ownPath(path: unknown): string {
  return typeof path === 'string' && /^\/(?![/\\])[\w/-]*$/.test(path) ? path : '/'
}
