// A phone without a job: what comes next, and whether the office is in reach.
import type { JSX } from 'preact'
import { reachWords } from '../words/en_reach.ts'
import { usePhone } from './context.ts'
import { Reach } from './reach.tsx'

export function EmptyJobs(): JSX.Element {
  const { services } = usePhone()
  const status = services.sync.status.value
  return (
    <>
      <p class="lead">{reachWords.noJob}</p>
      <Reach status={status} now_ms={services.device.clock.now().at_ms} />
      {status.state === 'offline' && <p>{reachWords.noJobOffline}</p>}
    </>
  )
}
