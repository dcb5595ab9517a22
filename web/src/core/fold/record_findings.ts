/** Findings of the record itself: chains, strikes, registers, revisions, clocks. */
import type { Entry } from '../entries.ts'
import { type Found, found } from './finding.ts'
import type { Ground } from './ground.ts'
import { jobRegister } from './ground.ts'
import { isStruck, unstruck } from './log.ts'
import { hashesOf } from './order.ts'
import { placeOf } from './places.ts'
import { registerPlace } from './registers.ts'

export function recordFindings(ground: Ground): Found[] {
  return [
    ...forks(ground),
    ...idleStrikes(ground),
    ...twoValues(ground),
    ...idleOvers(ground),
    ...otherRevisions(ground),
    ...missingMethods(ground),
    ...clocks(ground),
  ]
}

function forks({ log }: Ground): Found[] {
  return log.forks.flatMap((entries) => {
    const [first] = entries
    if (first === undefined) return []
    return found('fork', [first.device, String(first.seq)], hashesOf(entries))
  })
}

function idleStrikes({ log }: Ground): Found[] {
  return log.idleStrikes.map(({ strike, target }) =>
    found('strike_without_effect', placeOf(target), [strike.hash, target.hash]),
  )
}

function twoValues({ registers }: Ground): Found[] {
  return [...registers.values()]
    .filter((register) => register.standing.length > 1)
    .map((register) => found('two_values', registerPlace(register.key), hashesOf(register.standing)))
}

/** An `over` that names a value of another kind or key replaces nothing. */
function idleOvers({ log, registers }: Ground): Found[] {
  return [...registers.values()].flatMap((register) =>
    register.overOthers
      .filter((writer) => !isStruck(log, writer.hash))
      .flatMap((writer) =>
        writer.body.over
          .filter((hash) => log.live.has(hash) && !register.entries.some((own) => own.hash === hash))
          .map((hash) => found('over_without_effect', placeOf(writer), [writer.hash, hash])),
      ),
  )
}

function otherRevisions(ground: Ground): Found[] {
  return elsewhereOf(ground).map((entry) => found('made_under_other_revision', placeOf(entry), [entry.hash]))
}

/** Entries about a step that count only under the revision that they were made under. */
export function elsewhereOf(ground: Ground): readonly Entry[] {
  const found = ELSEWHERE.get(ground) ?? lookedUp(ground)
  ELSEWHERE.set(ground, found)
  return found
}

/** Told as a list and as findings, and looked for once. */
const ELSEWHERE = new WeakMap<Ground, readonly Entry[]>()

function lookedUp({ log, pinned, registers }: Ground): Entry[] {
  const values = [...registers.values()].flatMap((register) => register.elsewhere)
  const members = [
    ...unstruck(log, 'photo').filter((entry) => entry.body.slot !== ''),
    ...unstruck(log, 'lot'),
    ...unstruck(log, 'countersign'),
    ...unstruck(log, 'deviation').filter((entry) => entry.body.step !== ''),
  ]
  return [...values, ...members.filter((entry) => !pinned.answers(entry.body))]
}

function missingMethods(ground: Ground): Found[] {
  const pin = jobRegister(ground, 'pin')?.shown?.hash ?? ''
  return ground.pinned.missing.map((digest) => found('missing_method', [digest], [pin]))
}

function clocks({ log }: Ground): Found[] {
  return unstruck(log, 'clock').map((entry) => found('clock_changed', placeOf(entry), [entry.hash]))
}
