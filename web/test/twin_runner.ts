// Folds logs for the Python side to compare with: one log a line in, one canonical card state a line out.
// Run: node web/test/twin_runner.ts [FILE]; without FILE it reads standard input. A line is {methods, entries}.
import { createReadStream } from 'node:fs'
import { createInterface } from 'node:readline'
import { dumps, type Json } from '../src/core/canonical.ts'
import type { Entry } from '../src/core/entries.ts'
import { fold } from '../src/core/fold/index.ts'
import type { MethodDoc } from '../src/core/method.ts'

type Log = { readonly methods: Record<string, MethodDoc>; readonly entries: readonly Entry[] }

/** The state's text, or the fault of a fold that threw, which no well-formed log may cause. */
function foldedText(line: string): string {
  const { methods, entries } = JSON.parse(line) as Log
  try {
    return dumps(fold(methods, entries) as unknown as Json)
  } catch (error) {
    return JSON.stringify({ threw: String(error) })
  }
}

const file = process.argv[2]
const input = file === undefined ? process.stdin : createReadStream(file)
for await (const line of createInterface({ input })) {
  if (line !== '') process.stdout.write(`${foldedText(line)}\n`)
}
