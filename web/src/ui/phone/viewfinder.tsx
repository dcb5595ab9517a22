// The camera in the page, with the slot's framing over it; says plainly when there is none or it is not allowed.
import type { ComponentChildren, JSX } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import type { PhotoAsk } from '../../core/method.ts'
import type { StepPlace } from '../../core/views/card.ts'
import { Mark } from '../parts/mark.tsx'
import { askWords } from '../words/en_asks.ts'
import { usePhone } from './context.ts'

export function Viewfinder({ framing }: { framing?: ComponentChildren }): JSX.Element {
  const { camera } = usePhone().services.device
  const video = useRef<HTMLVideoElement>(null)
  const view = camera.view.value
  useEffect(() => {
    if (video.current !== null) void camera.open(video.current)
    return () => camera.close()
  }, [camera])
  return (
    <div class="viewfinder">
      <video
        ref={video}
        class={view === 'live' ? 'video' : 'video-off'}
        playsInline
        muted
        tabIndex={-1}
        aria-label={askWords.photo.viewfinder}
      />
      {view === 'live' && framing}
      {view === 'denied' && <NoCamera title={askWords.photo.denied} why={askWords.photo.deniedWhy} />}
      {view === 'none' && <NoCamera title={askWords.photo.none} why={askWords.photo.noneWhy} />}
      {(view === 'off' || view === 'asking') && <p role="status">{askWords.photo.starting}</p>}
    </div>
  )
}

function NoCamera({ title, why }: { title: string; why: string }): JSX.Element {
  return (
    <div class="no-camera" role="status">
      <Mark name="camera" />
      <p>
        <strong>{title}</strong>
      </p>
      <p>{why}</p>
    </div>
  )
}

/** The method's line drawing of what must be in the frame, where it has one under the slot's name. */
export function Framing({ ask, place }: { ask: PhotoAsk; place: StepPlace }): JSX.Element | null {
  const { store } = usePhone().services
  const [url, setUrl] = useState('')
  const sha = place.method.drawings[ask.id]
  useEffect(() => {
    let made = ''
    if (sha === undefined) return
    void store.drawing(sha).then((blob) => {
      if (blob === undefined) return
      made = URL.createObjectURL(blob)
      setUrl(made)
    })
    return () => URL.revokeObjectURL(made)
  }, [store, sha])
  return url === '' ? null : <img class="framing" src={url} alt="" />
}
