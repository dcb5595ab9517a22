// Says for the Python side what the office's page marks in a job's log: run as node web/test/office_runner.ts FILE.
// The file is {"methods": documents by digest, "items": [{"entry", "received_ms", "offset_ms"}]}; the answer names
// by hash what was done before its hold point (its title), what came late and what came out of order.
import { readFileSync } from 'node:fs'
import { fold } from '../src/core/fold/index.ts'
import type { MethodDoc } from '../src/core/method.ts'
import { EMPTY_LOG, type LoggedEntry, withEntries } from '../src/core/views/office_log.ts'
import { beforeHolds, isLate, outOfOrder } from '../src/core/views/office_order.ts'

type Logged = { readonly methods: Record<string, MethodDoc>; readonly items: readonly LoggedEntry[] }

const { methods, items } = JSON.parse(readFileSync(process.argv[2] ?? '', 'utf8')) as Logged
const log = withEntries({ ...EMPTY_LOG, methods }, items)
const state = fold(
  methods,
  items.map(({ entry }) => entry),
)
const late = items.filter(isLate).map(({ entry }) => [entry.hash, 'late'])
const disordered = [...outOfOrder(log)].map((hash) => [hash, 'out of order'])
process.stdout.write(
  JSON.stringify({
    before_holds: Object.fromEntries(beforeHolds(log, state)),
    late: Object.fromEntries(late),
    out_of_order: Object.fromEntries(disordered),
  }),
)
