// A zone document under change: what it is now, and the way back, step by step.
import { useState } from 'preact/hooks'
import type { Json } from '../../core/canonical.ts'

export type Draft = {
  readonly document: Json
  readonly canUndo: boolean
  /** Changes of the same tag one after another, such as of one drag, are one step back. */
  change(next: Json, tag: string): void
  undo(): void
}

type Step = { readonly document: Json; readonly tag: string }

export function useDraft(first: Json): Draft {
  const [steps, setSteps] = useState<readonly [Step, ...Step[]]>([{ document: first, tag: '' }])
  const [now, ...before] = steps
  return {
    document: now.document,
    canUndo: before.length > 0,
    change: (document, tag) =>
      setSteps(([last, ...others]) =>
        last.tag === tag ? [{ document, tag }, ...others] : [{ document, tag }, last, ...others],
      ),
    undo: () => setSteps(([last, next, ...others]) => (next === undefined ? [last] : [next, ...others])),
  }
}
