/** What a push shows on a locked screen: the moment and nothing about a person, a vehicle or a job. */

export type Notice = {
  readonly title: string
  readonly body: string
  readonly tag: string
  readonly data: { readonly path: string }
}

const TITLES: Readonly<Record<string, string>> = {
  due: 'Something is due',
  five_min: 'Due in 5 minutes',
  one_min: 'Due in 1 minute',
  overdue: 'Overdue',
  over_maximum: 'Over the maximum',
}
const PLAIN = 'News on a job card'

/** The push carries `{moment, path}`; anything else, or nothing, is shown as plain news. */
export function noticeOf(text: string): Notice {
  const { moment, path } = sent(text)
  return { title: TITLES[moment] ?? PLAIN, body: 'Open the job card.', tag: moment || 'news', data: { path } }
}

function sent(text: string): { moment: string; path: string } {
  try {
    const { moment, path } = JSON.parse(text) as { moment?: unknown; path?: unknown }
    return { moment: typeof moment === 'string' ? moment : '', path: ownPath(path) }
  } catch {
    return { moment: '', path: '/' } // no JSON: an empty push still has to show something
  }
}

/** Only a path of this origin: a push must not open another site. */
function ownPath(path: unknown): string {
  return typeof path === 'string' && /^\/(?![/\\])[\w/-]*$/.test(path) ? path : '/'
}
