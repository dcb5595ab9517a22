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
  markLost(): void
  close(): void
}

export async function connect(tables: Tables): Promise<Connection> {
  const health = signal<StoreHealth>('ok')
  await tables.open()
  const run = async <Result>(work: (open: Tables) => Promise<Result>): Promise<Result> => {
    try {
      return await said(health, () => work(tables))
    } catch (error) {
      if (faultOf(error) !== 'closed') throw asFault(error, health)
    }
    try {
      await reopen(tables)
      return await said(health, () => work(tables))
    } catch (error) {
      throw asFault(error, health)
    }
  }
  const markLost = () => {
    health.value = 'lost'
  }
  return { tables, health, run, markLost, close: () => tables.close() }
}

type HealthSignal = { value: StoreHealth }

/** Work that went well says so; a lost store stays lost until it is paired again. */
async function said<Result>(health: HealthSignal, work: () => Promise<Result>): Promise<Result> {
  const result = await work()
  if (health.value !== 'lost') health.value = 'ok'
  return result
}

async function reopen(tables: Tables): Promise<void> {
  tables.close({ disableAutoOpen: false })
  await tables.open()
}

function asFault(error: unknown, health: HealthSignal): unknown {
  const code = faultOf(error)
  if (code === undefined) return error
  health.value = code
  return error instanceof StoreFault ? error : new StoreFault(code, { cause: error })
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
