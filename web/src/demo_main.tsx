// Composition root of the demo's front page. Loaded only there.
import { render } from 'preact'
import { openOfficeApi } from './office_api/client.ts'
import { openFeed } from './office_api/feed.ts'
import { pageBeat } from './office_api/page_beat.ts'
import type { DemoPlan } from './office_api/rows.ts'
import { openTransport } from './office_api/transport.ts'
import { DemoFront, DemoWaiting } from './ui/demo_front/front_page.tsx'
import './ui/style/base.css'
import './ui/parts/parts.css'

const ASK_AGAIN_MS = 5000

export function startDemo(root: Element): void {
  const api = openOfficeApi(openTransport((url, init) => fetch(url, init)))
  const feed = openFeed<DemoPlan>(api.demo, ASK_AGAIN_MS, pageBeat())
  const Front = () => {
    const { value, silent_since_ms, refusal } = feed.seen.value
    if (value) return <DemoFront plan={value} />
    const silent = silent_since_ms !== undefined || refusal !== undefined
    return <DemoWaiting silent={silent} onAgain={() => void feed.refresh()} />
  }
  render(<Front />, root)
}
