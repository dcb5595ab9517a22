// Which method documents a job's entries need.
import { expect, test } from 'vitest'
import { methodsNamed } from '../../src/core/methods_named.ts'
import { author, pen } from './writing.ts'

test('pinned methods and the revision that an entry was made under are named, each once', () => {
  const write = pen(9, author(9, 'office'))
  const log = [
    write({ kind: 'pin', body: { methods: ['b', 'a'], over: [] } }),
    write({
      kind: 'note',
      body: { text: 'under an older revision', method: 'm', digest: 'c', step: 's', about: [] },
    }),
    write({ kind: 'note', body: { text: 'about no step', method: '', digest: '', step: '', about: [] } }),
  ]
  expect(methodsNamed([...log, ...log])).toEqual(['a', 'b', 'c'])
})
