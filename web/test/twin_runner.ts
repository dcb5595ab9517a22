// Folds logs for the Python side to compare with: one log a line in, one canonical card state a line out.
// Run: node web/test/twin_runner.ts [FILE]; without FILE it reads standard input. A line is
// {"methods": documents, "entries": [...]}, documents a list or an object by digest; {"methods_are": documents}
// sets the documents of all logs that follow and name none.
import { createReadStream } from 'node:fs'
import { createInterface } from 'node:readline'
import { dumps, type Json } from '../src/core/canonical.ts'
import { sha256Hex } from '../src/core/digest.ts'
import type { Entry } from '../src/core/entries.ts'
import { foldOnto } from '../src/core/fold/grown.ts'
import { fold } from '../src/core/fold/index.ts'
import type { MethodDoc } from '../src/core/method.ts'

type Held = Record<string, MethodDoc>
type Documents = readonly MethodDoc[] | Held
type Line = {
  readonly methods_are?: Documents
  readonly methods?: Documents
  readonly entries?: readonly Entry[]
}

function byDigest(documents: Documents): Held {
  if (!Array.isArray(documents)) return documents as Held
  return Object.fromEntries(documents.map((document) => [sha256Hex(dumps(document as Json)), document]))
}

/** The state's text, grown in two steps, or the fault of a fold that threw, which no well-formed log may cause. */
function foldedText(methods: Held, entries: readonly Entry[]): string {
  try {
    const whole = dumps(fold(methods, entries) as unknown as Json)
    const before = fold(methods, entries.slice(0, -Math.ceil(entries.length / 4)))
    const grown = dumps(foldOnto(before, methods, entries) as unknown as Json)
    return grown === whole ? whole : JSON.stringify({ threw: 'grown is another state than whole' })
  } catch (error) {
    return JSON.stringify({ threw: String(error) })
  }
}

const file = process.argv[2]
const input = file === undefined ? process.stdin : createReadStream(file)
let held: Held = {}
for await (const text of createInterface({ input })) {
  if (text === '') continue
  const line = JSON.parse(text) as Line
  if (line.methods_are !== undefined) held = byDigest(line.methods_are)
  if (line.entries === undefined) continue
  const methods = line.methods === undefined ? held : byDigest(line.methods)
  process.stdout.write(`${foldedText(methods, line.entries)}\n`)
}
