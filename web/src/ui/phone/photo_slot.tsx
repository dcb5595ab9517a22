// A photo slot: the slot is the key; it says what must be seen, and where its photos are.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { PhotoAsk } from '../../core/method.ts'
import type { Known } from '../../core/views/card.ts'
import { Mark } from '../parts/mark.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { capital } from '../words/format.ts'
import { usePhone } from './context.ts'

type SlotProps = { ask: PhotoAsk; photos: readonly Known[]; href: string; line?: string }

export function PhotoSlot({ ask, photos, href, line }: SlotProps): JSX.Element {
  const first = photos[0]
  return (
    <a class="key key-plain slot" href={href}>
      <span class="slot-frame">{first ? <Thumb photo={first} /> : <Mark name="camera" />}</span>
      <span class="slot-words">
        <strong>{capital(ask.show || ask.name)}</strong>
        {line && <small>{line}</small>}
        {first ? (
          <StateWord
            state={first.where}
            word={photos.length > 1 ? `${photos.length}, ${w.states[first.where]}` : undefined}
          />
        ) : (
          <small>{w.states.wanted}</small>
        )}
        <span class="take">{first ? w.card.slot.another : w.card.slot.take}</span>
      </span>
    </a>
  )
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
