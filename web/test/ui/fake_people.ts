// The invented people of the screens' tests.
import type { Author } from '../../src/core/entries.ts'
import type { Person } from '../../src/store/types.ts'

const PIN = { algorithm: 'PBKDF2-SHA256', iterations: 1, salt: '00', verifier: '00' } as const

function someone(n: number, name: string, roles: string[], qualifications: string[] = []): Person {
  const id = `40000000-0000-4000-8000-${String(n).padStart(12, '0')}`
  return { id, name, roles, qualifications, pin: PIN }
}

export const MARA = someone(1, 'Mara Ilves', ['technician'], ['high_voltage'])
export const OSKAR = someone(2, 'Oskar Teal', ['technician'])
export const PIM = someone(3, 'Pim Reed', ['photographer'])
export const ADA = someone(4, 'Ada Quill', ['office'])

export function authorOf(person: Person, auth: Author['auth'] = 'own'): Author {
  return { by: person.id, auth, as: [...new Set([...person.roles, ...person.qualifications])].sort() }
}
