/** This phone's own key: made by WebCrypto, not extractable, used for signing and nothing else. */
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'
import type { KeyRow } from './tables.ts'
import type { Identity } from './types.ts'

const CURVE = { name: 'ECDSA', namedCurve: 'P-256' } as const
const SIGNING = { name: 'ECDSA', hash: 'SHA-256' } as const

/** A fresh key, not yet known to any office. */
export async function makeKey(): Promise<KeyRow> {
  const keys = await crypto.subtle.generateKey(CURVE, false, ['sign', 'verify'])
  const point = await crypto.subtle.exportKey('raw', keys.publicKey)
  const blank = { device: '', name: '', check: '', card: '', card_signature: '', seal: '' }
  return { id: 'me', keys, public_key: bytesToHex(new Uint8Array(point)), state: 'key_made', ...blank }
}

/** Raw r||s in hex over the text's UTF-8. */
export async function signText(keys: CryptoKeyPair, text: string): Promise<string> {
  const signature = await crypto.subtle.sign(SIGNING, keys.privateKey, new Uint8Array(utf8ToBytes(text)))
  return bytesToHex(new Uint8Array(signature))
}

type Card = { person?: string; roles?: string[]; qualifications?: string[]; name?: string }

export function identityOf(row: KeyRow): Identity {
  const card = (row.card === '' ? {} : JSON.parse(row.card)) as Card
  return {
    device: row.device,
    public_key: row.public_key,
    sign: (text) => signText(row.keys, text),
    name: card.name ?? row.name,
    state: row.state,
    check: row.check,
    person: card.person ?? '',
    roles: card.roles ?? [],
    qualifications: card.qualifications ?? [],
  }
}
