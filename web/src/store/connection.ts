/** The connection to the tables: opened again once where the browser closed it, else a StoreFault. */
import { type ReadonlySignal, signal } from '@preact/signals'
import { StoreFault, type StoreFaultCode } from './fault.ts'
import type { Tables } from './tables.ts'
import type { StoreHealth } from './types.ts'

const CLOSED_NAMES = new Set([
  'InvalidStateError',
  'DatabaseClosedError',
  'OpenFailedError',
  'UnknownError',
  'AbortError',
  'TransactionInactiveError',
])

export interface Connection {
  readonly tables: Tables
  readonly health: ReadonlySignal<StoreHealth>
  /** Runs work on open tables; work that met a closed connection runs once more on a new one. */
  run<Result>(work: (tables: Tables) => Promise<Result>): Promise<Result>
  /** From here on a store that comes back empty is lost: nothing may be written into it as if it were new. */
  guard(): void
  mark(health: 'ok' | 'lost'): void
  close(): void
}

export async function connect(tables: Tables): Promise<Connection> {
  await tables.open()
  return new TablesConnection(tables)
}

class TablesConnection implements Connection {
  readonly tables: Tables
  readonly health = signal<StoreHealth>('ok')
  private guarded = false
  private reopening: Promise<void> | undefined

  constructor(tables: Tables) {
    this.tables = tables
  }

  /** A property, so that it can be handed on by itself. */
  readonly run: Connection['run'] = (work) => this.twiceAtMost(work)

  private async twiceAtMost<Result>(work: (tables: Tables) => Promise<Result>): Promise<Result> {
    const handle = this.handle()
    try {
      return await this.said(work)
    } catch (error) {
      if (faultOf(error) !== 'closed') throw this.asFault(error)
    }
    try {
      await this.reopenedSince(handle)
      return await this.said(work)
    } catch (error) {
      throw this.asFault(error)
    }
  }

  guard(): void {
    this.guarded = true
  }

  mark(health: 'ok' | 'lost'): void {
    this.health.value = health
  }

  close(): void {
    this.tables.close()
  }

  private handle(): IDBDatabase | undefined {
    return this.tables.isOpen() ? this.tables.backendDB() : undefined
  }

  /** Work that went well says so; a lost store stays lost until it is paired again. */
  private async said<Result>(work: (tables: Tables) => Promise<Result>): Promise<Result> {
    const result = await work(this.tables)
    if (this.health.value !== 'lost') this.health.value = 'ok'
    return result
  }

  /** Opens again, once for all who met the closed handle: a second time would cut off the first one's retry. */
  private reopenedSince(handle: IDBDatabase | undefined): Promise<void> {
    if (this.reopening !== undefined) return this.reopening
    const now = this.handle()
    if (now !== undefined && now !== handle) return Promise.resolve()
    this.reopening = this.reopen().finally(() => {
      this.reopening = undefined
    })
    return this.reopening
  }

  private async reopen(): Promise<void> {
    this.tables.close({ disableAutoOpen: false })
    await this.tables.open()
    if (!this.guarded || (await this.tables.identity.count()) > 0) return
    this.mark('lost')
    throw new StoreFault('lost')
  }

  private asFault(error: unknown): unknown {
    const code = faultOf(error)
    if (code === undefined) return error
    if (code !== 'lost') this.health.value = code
    return error instanceof StoreFault ? error : new StoreFault(code, { cause: error })
  }
}

/** Which fault of the store an error is; anything else is a bug and passes as it is. */
export function faultOf(error: unknown): StoreFaultCode | undefined {
  if (error instanceof StoreFault) return error.code
  const names = namesIn(error)
  if (names.includes('QuotaExceededError')) return 'full'
  return names.some((name) => CLOSED_NAMES.has(name)) ? 'closed' : undefined
}

/** Dexie wraps the browser's error as `inner`. */
function namesIn(error: unknown): string[] {
  if (typeof error !== 'object' || error === null) return []
  const { name, inner } = error as { name?: unknown; inner?: unknown }
  return [...(typeof name === 'string' ? [name] : []), ...namesIn(inner)]
}
