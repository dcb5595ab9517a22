// What a person's form sends, and what it lacks before it can be sent.
import type { PersonChange } from '../../office_api/rows.ts'
import { o } from '../words/office_en.ts'

const words = o.people
const PIN = /^\d{4,8}$/

export type Typed = {
  name: string
  roles: readonly string[]
  qualifications: string
  pin: string
  password: string
}

/** What is missing in the form; empty if nothing is. */
export function lackOf(typed: Typed): string {
  if (typed.name.trim() === '') return words.needName
  if (typed.roles.length === 0) return words.needRole
  return typed.pin === '' || PIN.test(typed.pin) ? '' : words.badPin
}

/** What is sent: an empty PIN or password means that it stays as it is. */
export function changeOf(typed: Typed): PersonChange {
  const ids = typed.qualifications.split(/[\s,]+/).filter((id) => id !== '')
  return {
    name: typed.name.trim(),
    roles: [...typed.roles].sort(),
    qualifications: [...new Set(ids)].sort(),
    ...(typed.pin === '' ? {} : { pin: typed.pin }),
    ...(typed.password === '' ? {} : { password: typed.password }),
  }
}
