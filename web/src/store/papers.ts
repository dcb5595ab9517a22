/** Makers' instructions on this phone: bytes in chunks, hashed as read back, while the office tells of them. */
import { StoreFault } from './fault.ts'
import { chunksOf, joined, sha256Of } from './photos.ts'
import type { Tables } from './tables.ts'
import type { PaperRow, PaperWords } from './types.ts'

export async function paperRows(tables: Tables): Promise<PaperRow[]> {
  const here = new Set(await heldPapers(tables))
  return (await tables.papers.toArray()).map((row) => ({ ...row, here: here.has(row.sha256) }))
}

/** The chunks of one file are written as one: whose first is here is here whole. */
async function heldPapers(tables: Tables): Promise<string[]> {
  const keys = (await tables.paper_chunks.toCollection().primaryKeys()) as [string, number][]
  return keys.flatMap(([sha256, index]) => (index === 0 ? [sha256] : []))
}

/** The list as the office has it now; what it names no more is let go. In the caller's transaction. */
export async function putPaperList(tables: Tables, papers: readonly PaperWords[]): Promise<void> {
  await tables.papers.clear()
  await tables.papers.bulkPut([...papers])
  const named = new Set(papers.map(({ sha256 }) => sha256))
  for (const sha256 of await heldPapers(tables)) {
    if (!named.has(sha256)) await dropPaper(tables, sha256)
  }
}

function chunks(tables: Tables, sha256: string) {
  return tables.paper_chunks.where('[sha256+index]').between([sha256, 0], [sha256, Infinity])
}

function dropPaper(tables: Tables, sha256: string): Promise<number> {
  return chunks(tables, sha256).delete()
}

/** StoreFault 'lost' where the disk gives other bytes back than were written. */
export async function keepPaper(tables: Tables, sha256: string, bytes: ArrayBuffer): Promise<void> {
  await tables.paper_chunks.bulkPut(chunksOf({ sha256, bytes }))
  const back = await paperBytes(tables, sha256)
  if (back !== undefined && (await sha256Of(back)) === sha256) return
  await dropPaper(tables, sha256)
  throw new StoreFault('lost')
}

export async function paperBytes(tables: Tables, sha256: string): Promise<ArrayBuffer | undefined> {
  return joined(await chunks(tables, sha256).toArray())
}
