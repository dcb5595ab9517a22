// What is said of a VIN's characters and check digit: remarks, never a refusal.
import type { VinRemark } from '../../core/views/vin.ts'

export function vin(remark: VinRemark): string {
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

export const vinTaken = 'It is taken as it is.'
