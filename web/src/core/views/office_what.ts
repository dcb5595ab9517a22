/** What an entry says, as a key of the catalogue with the figures and words that go into it. */
import {
  type Entry,
  type HeatActBody,
  type HeatOnBody,
  isHeatOn,
  isRunReading,
  isTallyMark,
  type ReadingBody,
  type StepRef,
  type TallyBody,
} from '../entries.ts'
import { entryOf, type JobLog } from './office_log.ts'
import { askOf, placeOf, subjectOf } from './office_names.ts'

export type Figure = { readonly value: number; readonly unit: string; readonly decimals: number }

/**
 * `subject` is in the method's words, `detail` in the recorder's, `terms` are keys of the catalogue,
 * `people` are person ids; `strong` says that the item stands out.
 */
export type What = {
  readonly key: string
  readonly subject: string
  readonly detail: string
  readonly figures: readonly Figure[]
  readonly terms: readonly string[]
  readonly people: readonly string[]
}

const PLAIN: Omit<What, 'key'> = { subject: '', detail: '', figures: [], terms: [], people: [] }
const what = (key: string, parts: Partial<What> = {}): What => ({ ...PLAIN, ...parts, key })
const about = (log: JobLog, body: StepRef, ask = '', point = ''): string =>
  subjectOf(placeOf(log, body), ask, point, body.step)

function optionName(log: JobLog, body: StepRef & { ask: string; option: string }): string {
  const ask = askOf(placeOf(log, body), body.ask)
  if (ask?.kind !== 'choice') return body.option
  return ask.options.find((one) => one.id === body.option)?.name ?? body.option
}

function zoneOfRun(log: JobLog, run: string): string {
  const body = entryOf(log, run, 'heat')?.body
  return body !== undefined && isHeatOn(body) ? zoneName(log, body) : ''
}

function zoneName(log: JobLog, body: HeatOnBody): string {
  return log.methods[body.digest]?.zones.find((zone) => zone.id === body.zone)?.name ?? body.zone
}

function conditionName(log: JobLog, id: string): string {
  const all = Object.values(log.methods).flatMap((method) => method.conditions)
  return all.find((one) => one.id === id)?.name ?? id
}

function whatReading(log: JobLog, body: ReadingBody): What {
  if (!isRunReading(body)) {
    return what('reading', { subject: about(log, body, body.ask, body.point), figures: [body] })
  }
  const { unit, decimals } = body
  const figures = body.points.slice(-1).map(([, value]) => ({ value, unit, decimals }))
  return what('run_reading', { subject: zoneOfRun(log, body.run), detail: body.sensor, figures })
}

function whatTally(body: TallyBody): What {
  if (!isTallyMark(body)) return what('tally', { subject: body.position, terms: [`state_${body.state}`] })
  const piece = body.piece === '' ? [] : [`piece_${body.piece}`]
  return what(`mark_${body.mark}`, { subject: body.position, terms: piece })
}

function whatAct(log: JobLog, body: HeatActBody): What {
  return what(`heat_${body.act}`, { subject: zoneOfRun(log, body.run), detail: body.text || body.pad })
}

function whatHeat(log: JobLog, body: HeatOnBody | HeatActBody): What {
  if (!isHeatOn(body)) return whatAct(log, body)
  return what('heat_on', {
    subject: zoneName(log, body),
    detail: body.pads.join(', '),
    terms: [`purpose_${body.purpose}`],
  })
}

function titles(log: JobLog, digests: readonly string[]): string {
  return digests
    .map((digest) => log.methods[digest])
    .map((method, at) => (method ? `${method.title}, ${method.revision}` : (digests[at] ?? '').slice(0, 12)))
    .join('; ')
}

function whatOffice(log: JobLog, entry: Entry): What | undefined {
  switch (entry.kind) {
    case 'open':
      return what('open', { subject: entry.body.part, detail: entry.body.order })
    case 'assign':
      return what(entry.body.on ? 'assign_on' : 'assign_off', { people: [entry.body.person] })
    case 'place':
      return what(entry.body.place === '' ? 'place_none' : 'place', { detail: entry.body.place })
    case 'pin':
      return what('pin', { detail: titles(log, entry.body.methods) })
    case 'close':
    case 'reopen':
      return what(entry.kind, { detail: entry.body.reason })
    case 'file':
      return what(entry.body.reason === '' ? 'file' : 'file_incomplete', { detail: entry.body.reason })
    case 'aside':
      return what('aside', { figures: [countOf(entry.body.hashes)], terms: [`aside_${entry.body.code}`] })
    case 'admit':
      return what('admit', { figures: [countOf(entry.body.hashes)], detail: entry.body.reason })
    case 'accept':
      return what('accept', { terms: [`finding_${entry.body.code}`], detail: entry.body.reason })
    case 'send_back':
      return what('send_back', {
        subject: subjectOfHash(log, entry.body.hashes[0]),
        detail: entry.body.remark,
      })
    default:
      return undefined
  }
}

const countOf = (hashes: readonly string[]): Figure => ({ value: hashes.length, unit: '', decimals: 0 })

/** What the entry of this hash is about, in the method's words; the recorder's where it has none. */
export function subjectOfHash(log: JobLog, hash: string | undefined): string {
  const entry = hash === undefined ? undefined : log.byHash.get(hash)?.entry
  if (entry === undefined) return ''
  const found = whatOf(log, entry)
  return found.subject || found.detail
}

function whatSmall(log: JobLog, entry: Entry): What {
  switch (entry.kind) {
    case 'strike':
      return what('strike', { subject: subjectOfHash(log, entry.body.target), detail: entry.body.reason })
    case 'note':
      return what('note', { subject: about(log, entry.body), detail: entry.body.text })
    case 'deviation':
      return what('deviation', { subject: about(log, entry.body), detail: entry.body.text })
    case 'clock':
      return what(`clock_${entry.body.what}`, { figures: [seconds(entry.body.jump_ms / 1000)] })
    case 'heard':
      return what('heard', {
        subject: zoneOfRun(log, entry.body.run),
        terms: [`moment_${entry.body.moment}`],
      })
    case 'condition':
      return what(entry.body.holds ? 'condition_holds' : 'condition_gone', {
        subject: conditionName(log, entry.body.condition),
      })
    case 'later':
      return what('later', { subject: about(log, entry.body), detail: entry.body.reason })
    default:
      return what('unknown', { detail: (entry as Entry).kind })
  }
}

const seconds = (value: number): Figure => ({ value: Math.round(value), unit: 's', decimals: 0 })

/** The one description of an entry that all office screens use. */
export function whatOf(log: JobLog, entry: Entry): What {
  switch (entry.kind) {
    case 'tick':
      return what(`tick_${entry.body.value}`, {
        subject: about(log, entry.body, entry.body.ask),
        detail: entry.body.reason,
      })
    case 'text':
      return what('text', { subject: about(log, entry.body, entry.body.ask), detail: entry.body.value })
    case 'choice':
      return what('choice', {
        subject: about(log, entry.body, entry.body.ask),
        detail: optionName(log, entry.body),
      })
    case 'reading':
      return whatReading(log, entry.body)
    case 'photo':
      return what(entry.body.slot === '' ? 'photo_loose' : 'photo', {
        subject: about(log, entry.body, entry.body.slot),
        detail: entry.body.caption ?? '',
      })
    case 'tally':
      return whatTally(entry.body)
    case 'lot':
      return what('lot', { subject: about(log, entry.body, entry.body.ask), detail: entry.body.lot })
    case 'heat':
      return whatHeat(log, entry.body)
    case 'countersign':
      return what('countersign', { subject: about(log, entry.body, entry.body.ask) })
    case 'result':
      return what(`result_${entry.body.verdict}`, {
        subject: about(log, entry.body, entry.body.ask),
        figures: entry.body.values,
      })
    default:
      return whatOffice(log, entry) ?? whatSmall(log, entry)
  }
}
