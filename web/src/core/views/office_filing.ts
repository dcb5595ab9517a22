/** Whether a job is filed, by the register of the filed alone, and which entries came after. */
import type { JobLog } from './office_log.ts'

export type SealedAt = { readonly dossier: string; readonly filed_ms: number; readonly reason: string }

/**
 * A line of the register; `file_hash` is the job's `file` entry that the dossier was made with, `earlier` are the
 * dossiers that this one, an addendum, supersedes.
 */
export type RegisterLine = SealedAt & {
  readonly job: string
  readonly file_hash: string
  readonly earlier: readonly SealedAt[]
}

/** `unheard`: the register was not read yet, so the page says neither. */
export type Filing =
  | { readonly at: 'unheard' | 'not_filed' }
  | {
      readonly at: 'filed'
      readonly dossier: string
      readonly reason: string
      readonly filed_ms: number
      readonly earlier: readonly SealedAt[]
      /** Entries that it does not hold: they ask for an addendum. */
      readonly after: ReadonlySet<string>
    }

/**
 * A `file` entry alone files nothing: after a server was put back from before the filing, the entry comes back
 * from the phones and the dossier does not.
 */
export function filingOf(log: JobLog, register: readonly RegisterLine[] | undefined): Filing {
  if (register === undefined) return { at: 'unheard' }
  const [newest] = register.filter((line) => line.job === log.job).sort((a, b) => b.filed_ms - a.filed_ms)
  if (newest === undefined) return { at: 'not_filed' }
  const { dossier, reason, file_hash, filed_ms, earlier } = newest
  return { at: 'filed', dossier, reason, filed_ms, earlier, after: cameAfter(log, file_hash) }
}

// In the server's numbering. A log that has not been pulled as far as the `file` entry has nothing after it.
function cameAfter(log: JobLog, file_hash: string): ReadonlySet<string> {
  const hashes = log.items.map((item) => item.entry.hash)
  const at = hashes.indexOf(file_hash)
  return new Set(at < 0 ? [] : hashes.slice(at + 1))
}
