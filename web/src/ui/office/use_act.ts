// One act of a form: idle, under way (can be stopped), refused, silent or done.
import { useRef, useState } from 'preact/hooks'
import type { Answer, FileFault, Refusal } from '../../office_api/answer.ts'

export type ActState =
  | { readonly at: 'idle' | 'working' | 'silent' | 'cancelled' | 'done' }
  | { readonly at: 'refused'; readonly refusal: Refusal }
  | { readonly at: 'unready'; readonly words: string }

export type Act = {
  readonly state: ActState
  /** Runs it unless it is under way; true when it was taken. */
  run<T>(ask: (stop: AbortSignal) => Promise<Answer<T>>, onDone?: (value: T) => void): Promise<boolean>
  /** Says what is missing before it can run. */
  lack(words: string): void
  stop(): void
  clear(): void
}

/** What is wrong with what was sent, field by field; none while it is not refused. */
export function faultsOf({ state }: Act): readonly FileFault[] {
  return state.at === 'refused' ? state.refusal.faults : []
}

export function useAct(): Act {
  const [state, setState] = useState<ActState>({ at: 'idle' })
  const under = useRef<AbortController | undefined>(undefined)
  return {
    state,
    async run(ask, onDone) {
      if (under.current) return false
      const stopper = new AbortController()
      under.current = stopper
      setState({ at: 'working' })
      const answer = await ask(stopper.signal)
      under.current = undefined
      if (answer.kind === 'value') {
        setState({ at: 'done' })
        onDone?.(answer.value)
        return true
      }
      setState(answer.kind === 'refused' ? { at: 'refused', refusal: answer.refusal } : { at: answer.kind })
      return false
    },
    lack: (words) => setState({ at: 'unready', words }),
    stop: () => under.current?.abort(),
    clear: () => setState({ at: 'idle' }),
  }
}
