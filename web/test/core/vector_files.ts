// Reads test vectors from tests/vectors, where both sides find them; a key that no runner knows is a fault.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const VECTORS = fileURLToPath(new URL('../../../tests/vectors', import.meta.url))

export type Vector = { readonly name: string; readonly fields: { readonly [key: string]: unknown } }

/** All vectors of a folder, each with no other keys than `required` and `optional`. Throws if there is none. */
export function vectorsIn(folder: string, required: string[], optional: string[] = []): Vector[] {
  const files = readdirSync(join(VECTORS, folder)).filter((file) => file.endsWith('.json'))
  if (files.length === 0) throw new Error(`tests/vectors/${folder}: no vector found`)
  return files.sort().map((file) => {
    const fields = documentAt(folder, file) as Vector['fields']
    refuseOtherKeys(`${folder}/${file}`, Object.keys(fields), required, optional)
    return { name: file.slice(0, -'.json'.length), fields }
  })
}

function refuseOtherKeys(name: string, found: string[], required: string[], optional: string[]): void {
  const unknown = found.filter((key) => !required.includes(key) && !optional.includes(key))
  const missing = required.filter((key) => !found.includes(key))
  if (unknown.length + missing.length === 0) return
  throw new Error(`tests/vectors/${name}: unknown keys [${unknown}], missing keys [${missing}]`)
}

export function documentAt(folder: string, file: string): unknown {
  return JSON.parse(readFileSync(join(VECTORS, folder, file), 'utf8'))
}

/** What stands at a JSON pointer; undefined where nothing does. */
export function atPointer(document: unknown, pointer: string): unknown {
  return pointer
    .split('/')
    .slice(1)
    .reduce((here, part) => (here as { readonly [key: string]: unknown } | undefined)?.[part], document)
}

/** The same items in another order, the same for the same seed. */
export function shuffled<T>(items: readonly T[], seed: number): T[] {
  const left = [...items]
  const drawn: T[] = []
  for (let state = seed; left.length > 0; ) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    drawn.push(...left.splice(state % left.length, 1))
  }
  return drawn
}
