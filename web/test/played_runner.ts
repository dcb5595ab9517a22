// Works played jobs out for the Python side to compare with: what the phone's fold and computations make of them.
// Run: node web/test/played_runner.ts FILE. The file is {"methods": documents by digest, "entries": [...]} and may have
// "sheets", the suppliers' sheets in use; the answer is {"state": canonical card state, "results": by the hash of each result entry, what the phone would have
// recorded in its place from the entries before it}.
import { readFileSync } from 'node:fs'
import { dumps, type Json } from '../src/core/canonical.ts'
import { answer } from '../src/core/computations/book.ts'
import type { MaterialSheet } from '../src/core/computations/sheets.ts'
import type { Entry } from '../src/core/entries.ts'
import type { MethodDoc } from '../src/core/method.ts'
import { askOf, type Card, cardOf, type Known, placeOf } from '../src/core/views/card.ts'
import { gather } from '../src/core/views/compute_inputs.ts'

type Played = {
  readonly methods: Record<string, MethodDoc>
  readonly entries: readonly Entry[]
  readonly sheets?: readonly MaterialSheet[]
}
type ResultEntry = Extract<Entry, { kind: 'result' }>

const { methods, entries, sheets = [] } = JSON.parse(readFileSync(process.argv[2] ?? '', 'utf8')) as Played
const stored = entries.map((entry, order): Known => ({ entry, where: 'phone', order }))

function cardAt(count: number): Card {
  return { ...cardOf(entries[0]?.job ?? '', stored.slice(0, count), methods, []), sheets }
}

function workedOut(card: Card, { body, at_ms }: ResultEntry): unknown {
  const place = placeOf(card, body.method, body.step)
  const ask = place && askOf(place, body.ask)
  if (place === undefined || ask?.kind !== 'compute') throw new Error(`${body.step}.${body.ask}: no such ask`)
  const { question, hashes, tables, waits } = gather(card, place, ask, { at_ms: () => at_ms })
  if (waits.length > 0)
    throw new Error(`${body.step}.${body.ask}: waits for ${JSON.stringify(waits[0]?.ref)}`)
  const { model, values, verdict, lines } = answer(question)
  return { inputs: hashes, tables, model, values, verdict, lines }
}

const results = entries.flatMap((entry, index) =>
  entry.kind === 'result' ? [[entry.hash, workedOut(cardAt(index), entry)] as const] : [],
)
const state = dumps(cardAt(entries.length).state as unknown as Json)
process.stdout.write(JSON.stringify({ state, results: Object.fromEntries(results) }))
