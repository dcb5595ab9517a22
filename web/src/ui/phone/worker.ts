// Who works now on a phone that several people share: kept for this page session, asked again in the next.
import { type Signal, signal } from '@preact/signals'
import { type Author, NIL_PERSON } from '../../core/entries.ts'
import type { Somebody } from '../../core/views/card.ts'

/** The person, and how the phone knew. */
export type Worker = { readonly person: string; readonly auth: 'pin' | 'picked' }

const KEPT_AS = 'works_now'

export function keptWorker(): Worker | undefined {
  const [person, auth] = (globalThis.sessionStorage?.getItem(KEPT_AS) ?? '').split(' ')
  return person && (auth === 'pin' || auth === 'picked') ? { person, auth } : undefined
}

export function workNow(worker: Signal<Worker | undefined>, now: Worker): void {
  globalThis.sessionStorage?.setItem(KEPT_AS, `${now.person} ${now.auth}`)
  worker.value = now
}

export function workerSignal(): Signal<Worker | undefined> {
  return signal(keptWorker())
}

/** What a person may write as, by the people that the office told. */
export function rolesOf(person: Pick<Somebody, 'roles' | 'qualifications'>): readonly string[] {
  return [...new Set([...person.roles, ...person.qualifications])].sort()
}

/** Nobody until somebody is picked: then a shared phone records nothing but its clock. */
export function sharedAuthor(people: readonly Somebody[], worker: Worker | undefined): Author {
  const person = people.find((one) => one.id === worker?.person)
  if (person === undefined || worker === undefined) return { by: NIL_PERSON, auth: 'picked', as: [] }
  return { by: person.id, auth: worker.auth, as: [...rolesOf(person)] }
}
