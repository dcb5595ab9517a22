// Words for the order number, and what methods demand of people.

import { vin, vinTaken } from './en_vin.ts'
import { capital, listed, numberWord, plural } from './format.ts'
import { roleName } from './names.ts'

const steps = (n: number): string => `${n} ${plural(n, 'step', 'steps')}`

export const demands = {
  vin,
  vinTaken,
  orderTaken: (parts: readonly string[]) =>
    `${capital(numberWord(parts.length))} ${plural(parts.length, 'job has', 'jobs have')} this order number already: ${listed(parts)}. It can be used again.`,
  orderOpen: (part: string) => (part === '' ? 'an open one' : `${part}, open`),
  orderFiled: (part: string) => (part === '' ? 'a filed one' : `${part}, filed`),
  title: 'What the methods ask of people',
  none: 'Choose methods to see whom they ask for.',
  missing: (n: number) =>
    n === 0
      ? 'Everything can be done and signed by the people on this job.'
      : `${capital(numberWord(n))} ${plural(n, 'demand', 'demands')} nobody on this job can meet.`,
  name: (id: string) => capital(roleName(id)),
  does: (n: number) => `does ${steps(n)}`,
  signs: (n: number) => `signs ${steps(n)}`,
  by: (names: readonly string[]) => listed(names),
  nobody: 'nobody on this job',
  onlyOne: (name: string) => `only ${name}; another is to sign`,
  could: (names: readonly string[]) => `in the shop: ${listed(names, 'or')}`,
  nobodyAtAll: 'nobody in the shop has it',
  order: 'In this order',
  earlier: (title: string) => (title === '' ? 'earlier' : `Put ${title} earlier`),
  before: (method: string, needs: string) =>
    `‘${method}’ comes after ‘${needs}’: pin that before it, or say on the card why not.`,
}
