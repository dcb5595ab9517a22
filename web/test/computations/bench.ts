// How long each computation takes in node, by its vectors: `node test/computations/bench.ts`, printed and not judged.
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { answer, BOOK } from '../../src/core/computations/book.ts'
import type { Question } from '../../src/core/computations/question.ts'

const FOLDER = fileURLToPath(new URL('../../../tests/vectors/computations', import.meta.url))
const TIMES = 50

function questionsOf(computation: string): readonly Question[] {
  return readdirSync(`${FOLDER}/${computation}`).flatMap((file) => {
    const fields = JSON.parse(readFileSync(`${FOLDER}/${computation}/${file}`, 'utf8'))
    return 'refused' in fields ? [] : [{ computation, ...fields }]
  })
}

for (const computation of Object.keys(BOOK)) {
  const questions = questionsOf(computation)
  const first = performance.now()
  for (const one of questions) answer(one)
  const cold_ms = (performance.now() - first) / questions.length
  const then = performance.now()
  for (let i = 0; i < TIMES; i += 1) for (const one of questions) answer(one)
  const warm_ms = (performance.now() - then) / questions.length / TIMES
  console.log(`${computation.padEnd(22)} first ${cold_ms.toFixed(3)} ms, then ${warm_ms.toFixed(4)} ms`)
}
