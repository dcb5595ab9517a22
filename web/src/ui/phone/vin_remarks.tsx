// Under a VIN that is typed: what its characters and its check digit say. A remark, and no proof.
import type { JSX } from 'preact'
import { checkVin } from '../../core/views/vin.ts'
import { vin, vinTaken } from '../words/en_vin.ts'

export function VinRemarks({ typed }: { typed: string }): JSX.Element | null {
  const remarks = typed.trim() === '' ? [] : checkVin(typed).remarks
  if (remarks.length === 0) return null
  const odd = remarks.some(({ code }) => code !== 'digit_right')
  return (
    <div role="status">
      {remarks.map((remark, place) => (
        <p key={`${remark.code}${place}`}>{vin(remark)}</p>
      ))}
      {odd && <p class="label soft">{vinTaken}</p>}
    </div>
  )
}
