// Compiled method documents by digest, each fetched once.
import { useEffect, useState } from 'preact/hooks'
import type { MethodDoc } from '../../core/method.ts'
import { useOffice } from './office_desk.ts'

/** A revision never changes, so what was read once is kept while the page lives. */
const READ = new Map<string, MethodDoc>()

export type Methods = { readonly docs: ReadonlyMap<string, MethodDoc>; readonly failed: boolean }

/** Those of the digests that have been read; more follow as they come. */
export function useMethods(digests: readonly string[]): Methods {
  const { desk } = useOffice()
  const [failed, setFailed] = useState(false)
  const [, setRead] = useState(0)
  const wanted = digests.join()
  useEffect(() => {
    let gone = false
    const fetchAll = async (): Promise<void> => {
      for (const digest of digests.filter((one) => !READ.has(one))) {
        const text = await desk.api.methodText(digest)
        if (text.kind === 'value') READ.set(digest, JSON.parse(text.value) as MethodDoc)
        if (gone) return
        setFailed(text.kind !== 'value')
        setRead(READ.size)
      }
    }
    void fetchAll()
    return () => {
      gone = true
    }
  }, [desk, wanted])
  const docs = new Map(
    digests.flatMap((digest) => {
      const doc = READ.get(digest)
      return doc === undefined ? [] : [[digest, doc] as const]
    }),
  )
  return { docs, failed }
}
