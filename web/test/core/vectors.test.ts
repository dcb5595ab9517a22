// Holds the phone's canonical form, reading of entries, fold and tally to the vectors that the server is held to.
import { describe, expect, test } from 'vitest'
import { dumps, type Json, NotCanonical } from '../../src/core/canonical.ts'
import { parseStrict } from '../../src/core/canonical_read.ts'
import { sha256Hex } from '../../src/core/digest.ts'
import type { Entry } from '../../src/core/entries.ts'
import { foldOnto } from '../../src/core/fold/grown.ts'
import { fold } from '../../src/core/fold/index.ts'
import type { MethodDoc } from '../../src/core/method.ts'
import { EntryRefused, readEntry } from '../../src/core/read_entry.ts'
import { type Rivet, tallyReconciliation, tallyValues } from '../../src/core/tally.ts'
import { atPointer, documentAt, shuffled, type Vector, vectorsIn } from './vector_files.ts'

type Outcome = { readonly code: string; readonly field: string; readonly text: string }

/** What a reading or writing gives: its text, or the code and field that it was refused with. */
function outcomeOf(attempt: () => string): Outcome {
  try {
    return { code: '', field: '', text: attempt() }
  } catch (error) {
    if (!(error instanceof NotCanonical || error instanceof EntryRefused)) throw error
    return { code: error.code, field: error.field, text: '' }
  }
}

describe('canonical form agrees with the vector', () => {
  const vectors = vectorsIn('canonical', ['about'], ['text', 'value', 'canonical', 'code', 'hash'])
  test.each(vectors.map((vector) => [vector.name, vector] as const))('%s', (_, { fields }) => {
    const outcome = outcomeOf(() =>
      typeof fields.text === 'string' ? dumps(parseStrict(fields.text)) : dumps(fields.value as Json),
    )
    expect(outcome.code).toBe(fields.code ?? '')
    expect(outcome.text).toBe(fields.canonical ?? (fields.code === undefined ? fields.text : ''))
    if (fields.hash !== undefined) expect(sha256Hex(outcome.text)).toBe(fields.hash)
  })
})

describe('an entry is read or refused as the vector says', () => {
  const vectors = vectorsIn('entries', ['about', 'text', 'code', 'field'])
  test.each(vectors.map((vector) => [vector.name, vector] as const))('%s', (_, { fields }) => {
    const text = fields.text as string
    const outcome = outcomeOf(() => dumps(readEntry(text) as unknown as Json))
    expect(outcome).toEqual({
      code: fields.code,
      field: fields.field,
      text: fields.code === '' ? text : '',
    })
  })
})

describe('the fold gives the state of the vector in any order', () => {
  const vectors = vectorsIn('fold', ['about', 'methods', 'entries', 'expect', 'state'])
  const orders = (entries: readonly Entry[]): [string, readonly Entry[]][] => [
    ['as written', entries],
    ['reversed', [...entries].reverse()],
    ['doubled', [...entries, ...entries]],
    ['shuffled', shuffled(entries, 1)],
    ['shuffled and doubled', shuffled([...entries, ...entries], 2)],
  ]

  test.each(vectors.map((vector) => [vector.name, vector] as const))('%s', (_, { fields }) => {
    const methods = methodsOf(fields)
    const state = dumps(fields.state as Json)
    for (const [order, entries] of orders(fields.entries as Entry[])) {
      expect(dumps(fold(methods, entries) as unknown as Json), order).toBe(state)
    }
  })

  test.each(vectors.map((vector) => [vector.name, vector] as const))(
    '%s: grown entry by entry',
    (_, { fields }) => {
      const methods = methodsOf(fields)
      for (const [order, entries] of orders(fields.entries as Entry[])) {
        let grown = fold(methods, [])
        for (let count = 1; count <= entries.length; count += 1) {
          grown = foldOnto(grown, methods, entries.slice(0, count))
          const whole = fold(methods, entries.slice(0, count))
          expect(dumps(grown as unknown as Json), `${order}, ${count}`).toBe(dumps(whole as unknown as Json))
        }
      }
    },
  )

  test.each(vectors.map((vector) => [vector.name, vector] as const))('%s: as expected by hand', (_, one) => {
    const state = fold(methodsOf(one.fields), one.fields.entries as Entry[])
    const expected = Object.entries(one.fields.expect as { [pointer: string]: unknown })
    expect(expected.length).toBeGreaterThan(0)
    for (const [pointer, value] of expected) expect(atPointer(state, pointer), pointer).toEqual(value)
  })
})

function methodsOf(fields: Vector['fields']): Record<string, MethodDoc> {
  const documents = (fields.methods as string[]).map((name) => documentAt('methods', `${name}.json`))
  return Object.fromEntries(
    documents.map((document) => [sha256Hex(dumps(document as Json)), document as MethodDoc]),
  )
}

describe('the tally is reconciled as the vector says', () => {
  const vectors = vectorsIn('tally', ['about', 'rivets', 'figures', 'verdict'])
  test.each(vectors.map((vector) => [vector.name, vector] as const))('%s', (_, { fields }) => {
    const reconciliation = tallyReconciliation(fields.rivets as Rivet[])
    expect(tallyValues(reconciliation).map(({ name, value }) => [name, value])).toEqual(fields.figures)
    expect(reconciliation.verdict).toBe(fields.verdict)
  })
})
