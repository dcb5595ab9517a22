/** Checking a PIN on the phone, without the office, against the verifier in the bundle. */
import { bytesToHex, hexToBytes, utf8ToBytes } from '@noble/hashes/utils.js'
import type { Person } from '../store/types.ts'

const HASHES: Readonly<Record<string, string>> = { 'PBKDF2-SHA256': 'SHA-256' }

/** False too for a person without a PIN: who has none cannot be known by one. */
export async function checkPin({ pin: verifier }: Person, typed: string): Promise<boolean> {
  const hash = HASHES[verifier?.algorithm ?? '']
  if (verifier === undefined || hash === undefined) return false
  const key = await crypto.subtle.importKey('raw', new Uint8Array(utf8ToBytes(typed)), 'PBKDF2', false, [
    'deriveBits',
  ])
  const salt = new Uint8Array(hexToBytes(verifier.salt))
  const bits = await crypto.subtle.deriveBits(
    { name: 'PBKDF2', hash, salt, iterations: verifier.iterations },
    key,
    256,
  )
  return bytesToHex(new Uint8Array(bits)) === verifier.verifier
}
