/** Registers: values that replace one another by `over`, never by the clock. */
import type { Entry, StepRef } from '../entries.ts'
import { isRunReading } from '../entries.ts'
import type { RegisterKind, RegisterState } from '../state.ts'

export type { RegisterKind }

import { isStruck, type Log } from './log.ts'
import { append, byTexts, greatest, hashesOf, trimmed } from './order.ts'
import type { Pinned } from './revisions.ts'

export type RegisterEntry = Entry & { readonly body: { readonly over: readonly string[] } }
export type RegisterKey = {
  readonly kind: RegisterKind
  readonly method: string
  readonly step: string
  readonly ask: string
  readonly point: string
}
export type Register = {
  readonly key: RegisterKey
  /** The same as a list, to sort by. */
  readonly parts: readonly string[]
  /** All values ever, struck ones too, sorted by hash. */
  readonly entries: readonly RegisterEntry[]
  /** Values whose `over` names something that is no value of this register. */
  readonly overOthers: readonly RegisterEntry[]
  readonly standing: readonly RegisterEntry[]
  /** Values that stand, but under another revision. */
  readonly elsewhere: readonly RegisterEntry[]
  readonly sentBack: readonly string[]
  readonly shown: RegisterEntry | undefined
  /** The shown value, unless it was sent back. */
  readonly answer: RegisterEntry | undefined
}
export type Registers = ReadonlyMap<string, Register>

/** The key of a register entry; undefined for a kind that folds as no register. */
export function keyOf(entry: Entry): RegisterKey | undefined {
  switch (entry.kind) {
    case 'open':
    case 'place':
    case 'pin':
      return jobKey(entry.kind)
    case 'close':
    case 'reopen':
      return jobKey('life')
    case 'assign':
      return jobKey('assign', entry.body.person)
    case 'condition':
      return jobKey('condition', entry.body.condition)
    case 'tick':
      return stepKey('tick', entry.body, '')
    case 'text':
    case 'choice':
    case 'result':
      return stepKey(entry.kind, entry.body, entry.body.point)
    case 'reading':
      return isRunReading(entry.body) ? undefined : stepKey('reading', entry.body, entry.body.point)
    case 'file':
    case 'aside':
    case 'admit':
    case 'accept':
    case 'send_back':
    case 'photo':
    case 'tally':
    case 'lot':
    case 'heat':
    case 'note':
    case 'deviation':
    case 'countersign':
    case 'strike':
    case 'clock':
    case 'heard':
    case 'later':
      return undefined
    default:
      entry satisfies never
      return undefined
  }
}

function jobKey(kind: RegisterKind, point = ''): RegisterKey {
  return { kind, method: '', step: '', ask: '', point }
}

function stepKey(kind: RegisterKind, ref: StepRef & { ask: string }, point: string): RegisterKey {
  return { kind, method: ref.method, step: ref.step, ask: ref.ask, point }
}

export function partsOf(key: RegisterKey): string[] {
  return [key.kind, key.method, key.step, key.ask, key.point]
}

const JOB_REGISTERS: ReadonlySet<RegisterKind> = new Set([
  'open',
  'assign',
  'place',
  'pin',
  'life',
  'condition',
])

/** The `at` of a finding about a register: [kind] or [kind, whose] of the job's own, else its ids. */
export function registerPlace(key: RegisterKey): string[] {
  if (JOB_REGISTERS.has(key.kind)) return trimmed([key.kind, key.point])
  return trimmed([key.method, key.step, key.ask, key.point])
}

export function registerName(key: RegisterKey): string {
  return partsOf(key).join('\n')
}

/** A register's values before any method is asked: all ever, and those that stand. */
export type Standing = Pick<Register, 'key' | 'parts' | 'entries' | 'overOthers' | 'standing'>

/** All registers that have an entry, by name. */
export function standingValues(log: Log): ReadonlyMap<string, Standing> {
  return new Map([...byRegister(log.live.values())].map(([name, entries]) => [name, valuesOf(entries, log)]))
}

/** One register from its entries, sorted by hash. */
export function valuesOf(entries: readonly RegisterEntry[], log: Log): Standing {
  const own = new Map(entries.map((entry) => [entry.hash, entry]))
  const key = keyOf(entries[0] as RegisterEntry) as RegisterKey
  const overOthers = entries.filter(({ body }) => !body.over.every((hash) => own.has(hash)))
  return { key, parts: partsOf(key), entries, overOthers, standing: standingOf(entries, own, log) }
}

/** The registers as they stand under the pinned methods. */
export function readRegisters(
  values: ReadonlyMap<string, Standing>,
  sentBack: ReadonlySet<string>,
  pinned: Pinned,
): Registers {
  return new Map([...values].map(([name, value]) => [name, registerOf(value, sentBack, pinned)]))
}

/** Entries that are values, by the name of their register. */
export function byRegister(entries: Iterable<Entry>): Map<string, RegisterEntry[]> {
  const found = new Map<string, RegisterEntry[]>()
  for (const entry of entries) {
    const name = nameOf(entry)
    if (name !== undefined) append(found, name, entry as RegisterEntry)
  }
  return found
}

/** An entry never changes: the name of its register is worked out once, however often a card is folded. */
const NAMES = new WeakMap<Entry, string>()

function nameOf(entry: Entry): string | undefined {
  const known = NAMES.get(entry)
  if (known !== undefined) return known
  const key = keyOf(entry)
  if (key === undefined) return undefined
  const name = registerName(key)
  NAMES.set(entry, name)
  return name
}

/** A register as it stands under the pinned methods. */
export function registerOf(value: Standing, sentBack: ReadonlySet<string>, pinned: Pinned): Register {
  const { key, parts, entries, overOthers } = value
  const isHere = (entry: RegisterEntry) => JOB_REGISTERS.has(key.kind) || pinned.answers(refOf(entry))
  const standing = value.standing.filter(isHere)
  const answer = greatest(standing.filter((entry) => !sentBack.has(entry.hash)))
  return {
    key,
    parts,
    entries,
    overOthers,
    standing,
    elsewhere: value.standing.filter((entry) => !isHere(entry)),
    sentBack: hashesOf(standing.filter((entry) => sentBack.has(entry.hash))),
    shown: answer ?? greatest(standing),
    answer,
  }
}

/** Unstruck, and reached from no unstruck value by a chain of `over`, struck links included. */
function standingOf(
  entries: readonly RegisterEntry[],
  own: ReadonlyMap<string, RegisterEntry>,
  log: Log,
): readonly RegisterEntry[] {
  const alive = entries.filter((entry) => !isStruck(log, entry.hash))
  const reached = new Set<string>()
  const waiting = [...alive]
  for (let entry = waiting.pop(); entry !== undefined; entry = waiting.pop()) {
    for (const hash of entry.body.over) {
      const replaced = own.get(hash)
      if (replaced === undefined || reached.has(hash)) continue
      reached.add(hash)
      waiting.push(replaced)
    }
  }
  return alive.filter((entry) => !reached.has(entry.hash))
}

function refOf(entry: RegisterEntry): StepRef {
  return entry.body as unknown as StepRef
}

/** In which order they are told, for as long as somebody holds them: `grown.ts` goes on from it. */
export const IN_ORDER = new WeakMap<Registers, readonly Register[]>()

export function inOrder(registers: Registers): readonly Register[] {
  const ordered =
    IN_ORDER.get(registers) ?? [...registers.values()].sort((one, other) => byTexts(one.parts, other.parts))
  IN_ORDER.set(registers, ordered)
  return ordered
}

/** A register that got no entry is the same as before, and so is what is told of it. */
const TOLD = new WeakMap<Register, RegisterState>()

export function registerStates(registers: Registers): RegisterState[] {
  return inOrder(registers).map((register) => {
    const told = TOLD.get(register) ?? registerState(register)
    TOLD.set(register, told)
    return told
  })
}

function registerState({ key, shown, standing, sentBack }: Register): RegisterState {
  return { ...key, shown: shown?.hash ?? '', standing: hashesOf(standing), sent_back: sentBack }
}
