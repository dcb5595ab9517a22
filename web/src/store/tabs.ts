/** Tells listeners here and in other tabs which job changed; '' means something that is no one job's. */

export interface Changes {
  /** Tells this tab's listeners and the other tabs. */
  tell(job: string): void
  onChange(changed: (job: string) => void): () => void
  close(): void
}

/** `heard` runs before the listeners when another tab tells: memory goes first. */
export function changesOf(name: string, heard: (job: string) => void): Changes {
  const listeners = new Set<(job: string) => void>()
  const channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel(`store:${name}`) : undefined
  const tellHere = (job: string) => {
    for (const listener of listeners) listener(job)
  }
  channel?.addEventListener('message', (event: MessageEvent<string>) => {
    heard(event.data)
    tellHere(event.data)
  })
  return {
    tell: (job) => {
      tellHere(job)
      channel?.postMessage(job)
    },
    onChange: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    close: () => channel?.close(),
  }
}
