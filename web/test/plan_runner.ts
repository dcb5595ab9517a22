// Plans syncs for the simulation to compare with: one case a line in, one canonical answer a line out.
// Run: node web/test/plan_runner.ts FILE. A line is {"held","seen","log","done"} or {"batch","owed","device"}.
import { readFileSync } from 'node:fs'
import { dumps, type Json } from '../src/core/canonical.ts'
import { handOver, headsToSign, stepFor, type Waiting } from '../src/core/sync_plan.ts'

type Step = Parameters<typeof stepFor>
type Line = {
  readonly held: Step[0]
  readonly seen: Step[1]
  readonly log: Step[2]
  readonly done: readonly string[]
  readonly batch?: readonly Waiting[]
  readonly owed: readonly Waiting[]
  readonly device: string
}

function planned(line: Line): unknown {
  if (line.batch === undefined) return stepFor(line.held, line.seen, line.log, new Set(line.done)) ?? {}
  const heads = headsToSign(line.batch, line.owed, line.device)
  return { heads: heads.map(({ hash }) => hash), over: handOver(line.batch).map(({ hash }) => hash) }
}

for (const text of readFileSync(process.argv[2] ?? 0, 'utf8').split('\n')) {
  if (text !== '') process.stdout.write(`${dumps(planned(JSON.parse(text) as Line) as Json)}\n`)
}
