// A photo slot: the slot is the key; it says what must be seen, and where its photos are.
import type { ComponentChildren, JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { PhotoAsk } from '../../core/method.ts'
import type { Known, StepPlace } from '../../core/views/card.ts'
import { Mark } from '../parts/mark.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { capital } from '../words/format.ts'
import { usePhone } from './context.ts'
import { Outline } from './outline.tsx'

type SlotProps = {
  place: StepPlace
  ask: PhotoAsk
  photos: readonly Known[]
  href: string
  /** In a list of wanted ones, which says it once. */
  quiet?: boolean
  /** Where it is wanted, and what was wrong with the one before. */
  children?: ComponentChildren
}

export function PhotoSlot({ place, ask, photos, href, quiet = false, children }: SlotProps): JSX.Element {
  const first = photos[0]
  return (
    <a class="key key-plain slot" href={href}>
      <span class="slot-frame">
        {first ? (
          <Thumb photo={first} />
        ) : (
          <Outline ask={ask} place={place} class="slot-outline" none={<Mark name="camera" />} />
        )}
      </span>
      <span class="slot-words">
        <strong>{capital(ask.show || ask.name)}</strong>
        {children}
        {first && <PhotoWhere photo={first} n={photos.length} />}
        {!first && !quiet && <small>{w.states.wanted}</small>}
        {!quiet && <span class="take">{first ? w.card.slot.another : w.card.slot.take}</span>}
      </span>
    </a>
  )
}

/** Where the picture itself is: its record may be at the office while its bytes are still here. */
export function PhotoWhere({ photo, n = 1 }: { photo: Known; n?: number }): JSX.Element {
  const { store, sync } = usePhone().services
  const [bytesAt, setBytesAt] = useState<'phone' | 'office'>()
  const sha = photo.entry.kind === 'photo' ? photo.entry.body.sha256 : ''
  const waiting = sync.status.value.onThisPhone.photos
  useEffect(() => {
    void store.photoRow(sha).then((row) => setBytesAt(row?.where))
  }, [store, sha, waiting])
  const at = bytesAt === 'phone' ? 'phone' : photo.where
  return <StateWord state={at} word={n > 1 ? `${n}, ${w.states[at]}` : undefined} />
}

/** A photo's small picture; from another phone it is fetched when first looked at. */
export function Thumb({ photo }: { photo: Known }): JSX.Element {
  const { services } = usePhone()
  const [url, setUrl] = useState('')
  const thumb = photo.entry.kind === 'photo' ? photo.entry.body.thumb : ''
  useEffect(() => {
    let shown = ''
    const show = async () => {
      const blob = (await services.store.thumb(thumb)) ?? (await services.sync.fetchThumb(thumb))
      if (blob === undefined) return
      shown = URL.createObjectURL(blob)
      setUrl(shown)
    }
    void show()
    return () => URL.revokeObjectURL(shown)
  }, [thumb, services])
  if (url === '') return <span class="thumb-none label">{w.card.slot.notHere}</span>
  return <img class="thumb" src={url} alt="" />
}
