// The routes of loggers: their files, the keys that they write by, and the verdicts on runs.
import type { ResultValue } from '../core/entries.ts'
import type { ResponseDoc } from '../core/live/response_set.ts'
import type { LineCode, Overall, Standing } from '../core/live/verdict.ts'
import { type CardPlan, readSet } from '../core/views/card_plans.ts'
import { type Answer, mapAnswer } from './answer.ts'
import { path, type Transport } from './transport.ts'

export type UnreadRow = {
  readonly line: number
  /** Empty for a whole row. */
  readonly column: string
  readonly found: string
  readonly reason: string
}
export type ReadingFileRow = {
  readonly id: string
  readonly sha256: string
  readonly run: string
  readonly name: string
  readonly bytes: number
  readonly by: string
  readonly added_ms: number
  readonly logger: string
  /** 0 until it was read in. */
  readonly read_ms: number
  readonly taken: number
  readonly unread_total: number
  readonly unread: readonly UnreadRow[]
}
export type ReadingFiles = {
  readonly files: readonly ReadingFileRow[]
  /** Names under which files were read in before. */
  readonly loggers: readonly string[]
}
export type TimeForm = 'clock' | 'minutes' | 'seconds'
export type SensorColumn = { readonly column: number; readonly sensor: string }
/** `at_on`: the logger's own time at switch-on, as its column has it. `date` -1: no column of its own. */
export type ColumnMap = {
  readonly logger: string
  readonly separator: string
  readonly decimal: string
  readonly first_line: number
  readonly time: number
  readonly date: number
  readonly time_form: TimeForm
  readonly day_order: 'ymd' | 'dmy' | 'mdy'
  readonly unit: 'C' | 'F' | 'K'
  readonly at_on: string
  readonly sensors: readonly SensorColumn[]
}
export type WouldRead = {
  readonly rows: number
  readonly readings: number
  readonly known: number
  readonly unread: readonly UnreadRow[]
  readonly unread_total: number
  readonly before_on: number
  readonly blank: number
  readonly first_ms: number
  readonly last_ms: number
  /** Moments at which every sensor of the bond was read. */
  readonly whole: number
  readonly sensors: readonly {
    readonly sensor: string
    readonly readings: number
    readonly low: number
    readonly high: number
  }[]
}
export type LookedAt = {
  readonly file: string
  readonly sha256: string
  readonly name: string
  readonly lines: number
  readonly headings: readonly string[]
  readonly sample: readonly { readonly line: number; readonly cells: readonly string[] }[]
  readonly mapping: ColumnMap
  readonly remembered: boolean
  readonly on_ms: number
  readonly decimals: number
  readonly unit: string
  /** Null while the logger's time at switch-on is unsaid. */
  readonly read: WouldRead | null
}
export type PartTaken = {
  readonly rows: number
  /** 0 when all of it is in. */
  readonly next_row: number
  readonly readings: number
  readonly known: number
}
export type LoggerKeyRow = {
  readonly id: string
  readonly run: string
  readonly logger: string
  readonly by: string
  readonly made_ms: number
  readonly ended_ms: number
  readonly heard_ms: number
  readonly readings: number
}
type Figure = Omit<ResultValue, 'name'>
export type JudgedRun = {
  readonly run: string
  readonly over: boolean
  readonly aborted: boolean
  readonly model: string
  readonly overall: Overall
  readonly lines: readonly {
    readonly code: LineCode
    /** `pending`: only the rest of the run can settle it. */
    readonly standing: Standing | 'pending'
    readonly figure: Figure
    readonly limit: Figure | null
  }[]
  readonly earlier: readonly string[]
}

export const readingFileUrl = (file: string): string => path('reading_files', file)
/** Where a logger posts its rows. */
export const LOGGER_URL = '/api/logger/readings'

type PinnedPlan = Omit<CardPlan, 'here' | 'set'>

/** Response sets by their hash: what was fetched once never changes. */
function planSets(transport: Transport) {
  const kept = new Map<string, Promise<ResponseDoc | undefined>>()
  const fetched = async (sha256: string): Promise<ResponseDoc | undefined> => {
    const answer = await transport.getUnpacked(path('heat', 'responses', sha256))
    if (answer.kind !== 'value') kept.delete(sha256)
    return answer.kind === 'value' ? readSet(answer.value) : undefined
  }
  const setOf = (sha256: string): Promise<ResponseDoc | undefined> => {
    const found = kept.get(sha256) ?? fetched(sha256)
    kept.set(sha256, found)
    return found
  }
  return async (plan: PinnedPlan): Promise<CardPlan> => {
    const set = plan.sha256 === '' ? undefined : await setOf(plan.sha256)
    return { ...plan, here: set !== undefined, ...(set === undefined ? {} : { set }) }
  }
}

export function readings(transport: Transport) {
  const withSet = planSets(transport)
  return {
    /** The plans pinned to the job's zones, with the response sets that forecasts stand on. */
    cardPlans: async (job: string): Promise<Answer<readonly CardPlan[]>> => {
      const answer = await transport.get<{ plans: readonly PinnedPlan[] }>(path('jobs', job, 'heat_plans'))
      if (answer.kind !== 'value') return answer
      return { kind: 'value', value: await Promise.all(answer.value.plans.map(withSet)) }
    },
    verdicts: async (job: string): Promise<Answer<readonly JudgedRun[]>> =>
      mapAnswer(
        await transport.get<{ verdicts: readonly JudgedRun[] }>(path('jobs', job, 'verdicts')),
        (found) => found.verdicts,
      ),
    readingFiles: (job: string) => transport.get<ReadingFiles>(path('jobs', job, 'reading_files')),
    addReadingFile: (job: string, named: { name: string; run: string }, file: Blob, signal?: AbortSignal) =>
      transport.postBytes<ReadingFileRow>(
        `${path('jobs', job, 'reading_files')}?${new URLSearchParams(named)}`,
        file.slice(0, file.size, 'text/csv'),
        signal,
      ),
    lookAtFile: (file: string, asked: { mapping?: ColumnMap; logger?: string }, signal?: AbortSignal) =>
      transport.post<LookedAt>(path('reading_files', file, 'look'), asked, signal),
    takeFile: (file: string, mapping: ColumnMap, from_row: number, signal?: AbortSignal) =>
      transport.post<PartTaken>(path('reading_files', file, 'take'), { mapping, from_row }, signal),
    loggerKeys: async (job: string): Promise<Answer<readonly LoggerKeyRow[]>> =>
      mapAnswer(
        await transport.get<{ keys: readonly LoggerKeyRow[] }>(path('jobs', job, 'logger_keys')),
        (found) => found.keys,
      ),
    makeLoggerKey: (job: string, wanted: { run: string; logger: string }) =>
      transport.post<LoggerKeyRow & { key: string }>(path('jobs', job, 'logger_keys'), wanted),
    endLoggerKey: (key: string) => transport.remove(path('logger_keys', key)),
  }
}
