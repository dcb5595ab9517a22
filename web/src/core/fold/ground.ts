/** What the rest of the fold stands on: the log, the pin, registers, tally and runs. */
import type { Entry } from '../entries.ts'
import { type Log, readLog } from './log.ts'
import { greatest } from './order.ts'
import { type Photos, readPhotos } from './photos.ts'
import {
  type Register,
  type RegisterKind,
  type Registers,
  readRegisters,
  registerName,
  type Standing,
  standingValues,
} from './registers.ts'
import { type Methods, type Pinned, pinnedOf } from './revisions.ts'
import { type Runs, readRuns } from './runs.ts'
import { readTally, type Tally } from './tally.ts'

export type Ground = {
  readonly log: Log
  readonly pinned: Pinned
  readonly values: ReadonlyMap<string, Standing>
  readonly registers: Registers
  readonly photos: Photos
  readonly tally: Tally
  readonly runs: Runs
}
/** An ask of a step, and one of its points where it has any. */
export type AskPlace = {
  readonly method: string
  readonly step: string
  readonly ask: string
  readonly point?: string
}

export function groundOf(methods: Methods, entries: readonly Entry[]): Ground {
  const log = readLog(entries)
  const values = standingValues(log)
  const pin = greatest(values.get(jobName('pin'))?.standing ?? [])
  const pinned = pinnedOf(pin?.kind === 'pin' ? pin.body.methods : [], methods)
  return {
    log,
    pinned,
    values,
    registers: readRegisters(values, log.sentBack, pinned),
    photos: readPhotos({ log, pinned }),
    tally: readTally(log, pinned),
    runs: readRuns(log, methods),
  }
}

function jobName(kind: RegisterKind, point = ''): string {
  return registerName({ kind, method: '', step: '', ask: '', point })
}

/** A register of the whole job, or of one of its people or conditions; undefined while nothing was written to it. */
export function jobRegister(ground: Ground, kind: RegisterKind, point = ''): Register | undefined {
  return ground.registers.get(jobName(kind, point))
}

/** A register of a step; undefined while nothing was written to it. */
export function stepRegister(ground: Ground, kind: RegisterKind, at: AskPlace): Register | undefined {
  const { method, step, ask, point = '' } = at
  return ground.registers.get(registerName({ kind, method, step, ask, point }))
}
