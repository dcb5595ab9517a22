/** What every refresh of a screen asks for, read from the tables once and kept until somebody changes it. */
import type { MethodDoc } from '../core/method.ts'
import type { Connection } from './connection.ts'
import { fateWords } from './log_cache.ts'
import type { FateRow, Tables } from './tables.ts'
import type { JobRow, Person, RefusedRow } from './types.ts'

type Methods = Readonly<Record<string, MethodDoc>>

export class Reads {
  private readonly kept = new Map<string, Promise<unknown>>()
  /** Methods by digest, each parsed once: a digest never names another text. */
  private readonly documents = new Map<string, MethodDoc>()
  private readonly connection: Connection

  constructor(connection: Connection) {
    this.connection = connection
  }

  readonly jobs = (): Promise<JobRow[]> => this.read('jobs', (tables) => tables.jobs.toArray())

  readonly people = (): Promise<Person[]> => this.read('people', (tables) => tables.people.toArray())

  readonly fates = (): Promise<FateRow[]> => this.read('fates', (tables) => tables.fates.toArray())

  readonly methods = (): Promise<Methods> => this.read('methods', (tables) => this.readMethods(tables))

  readonly refused = (): Promise<RefusedRow[]> =>
    this.read('refused', async (tables) => refusedRows(tables, await this.fates()))

  setting(key: string): Promise<string | number | boolean | undefined> {
    return this.read(`setting ${key}`, async (tables) => (await tables.settings.get(key))?.value)
  }

  /** Somebody else may have changed anything: the next look reads it from disk. */
  forget(): void {
    this.kept.clear()
  }

  forgetSetting(key: string): void {
    this.kept.delete(`setting ${key}`)
  }

  private read<Read>(what: string, load: (tables: Tables) => Promise<Read>): Promise<Read> {
    const known = this.kept.get(what)
    if (known !== undefined) return known as Promise<Read>
    const loading = this.connection.run(load)
    this.kept.set(what, loading)
    loading.catch(() => this.kept.delete(what))
    return loading
  }

  private async readMethods(tables: Tables): Promise<Methods> {
    const digests = (await tables.methods.toCollection().primaryKeys()) as string[]
    const unread = digests.filter((digest) => !this.documents.has(digest))
    for (const row of unread.length === 0 ? [] : await tables.methods.bulkGet(unread))
      if (row !== undefined) this.documents.set(row.digest, JSON.parse(row.text) as MethodDoc)
    return Object.fromEntries(
      digests.flatMap((digest) => {
        const document = this.documents.get(digest)
        return document === undefined ? [] : [[digest, document]]
      }),
    )
  }
}

async function refusedRows(tables: Tables, all: readonly FateRow[]): Promise<RefusedRow[]> {
  const fates = all.filter((row) => row.fate === 'refused')
  if (fates.length === 0) return []
  const hashes = fates.map((row) => row.hash)
  const rows = await tables.entries.where('hash').anyOf(hashes).toArray()
  const texts = new Map(rows.map((row) => [row.hash, row.text]))
  return fates.map((row) => ({
    ...{ hash: row.hash, job: row.job, text: texts.get(row.hash) ?? '' },
    ...{ fate: fateWords(row), refused_ms: row.at_ms, seen: row.seen },
  }))
}
