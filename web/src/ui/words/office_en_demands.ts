// Words for the VIN's remarks, the order number, and what methods demand of people.
import type { VinRemark } from '../../core/views/vin.ts'
import { capital, listed, numberWord, plural } from './format.ts'
import { roleName } from './names.ts'

function vin(remark: VinRemark): string {
  switch (remark.code) {
    case 'length':
      return `${remark.found} characters; most VINs have 17.`
    case 'never':
      return `Place ${remark.place}: ${remark.found} never stands in a VIN, ${remark.meant} may be meant.`
    case 'no_letter':
      return `Place ${remark.place}: “${remark.found}” never stands in a VIN.`
    case 'digit_right':
      return 'The check digit is right. That is no proof: read the VIN from the body again.'
    case 'digit_wrong':
      return `The check digit (place 9) is ${remark.found} and would be ${remark.digit}: read the VIN from the body again.`
    case 'digit_free':
      return `Place 9 is ${remark.found}; as a check digit it would be ${remark.digit}. Outside North America the place is free.`
  }
}

const steps = (n: number): string => `${n} ${plural(n, 'step', 'steps')}`

export const demands = {
  vin,
  vinTaken: 'It is taken as it is.',
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
