// Where the parts of a job page are, on a screen so narrow that they stand below each other.
import type { JSX } from 'preact'
import { o } from '../words/office_en.ts'

/** The id of a part's section, for the key that leads there. */
export const PART = { runs: 'runs', photos: 'photos', steps: 'steps', timeLine: 'time-line' } as const

const PARTS: readonly (readonly [string, string])[] = [
  [PART.runs, o.job.runs],
  [PART.photos, o.job.photos.title],
  [PART.steps, o.job.steps.title],
  [PART.timeLine, o.job.timeLine.title],
]

/** The part comes into view, and the next Tab goes on inside it. */
function leadTo(id: string): void {
  const part = document.getElementById(id)
  part?.scrollIntoView()
  part?.focus({ preventScroll: true })
}

export function JobJump(): JSX.Element {
  return (
    <nav class="o-jump" aria-label={o.job.onThisPage}>
      {PARTS.map(([id, name]) => (
        <button key={id} type="button" class="o-link" onClick={() => leadTo(id)}>
          {name}
        </button>
      ))}
    </nav>
  )
}
