// The camera in the page, with the slot's drawing over it; says plainly when there is none or it is not allowed.
import type { JSX } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import type { PhotoAsk } from '../../core/method.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { jobViewOf } from '../../core/views/job_view.ts'
import { Key } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { askWords } from '../words/en_asks.ts'
import { photoWords } from '../words/en_photo.ts'
import { partWords } from '../words/names.ts'
import { usePhone } from './context.ts'
import { Outline } from './outline.tsx'
import { sideNamed } from './side_named.ts'

type FinderProps = { card: Card; place: StepPlace | undefined; ask: PhotoAsk | undefined }

export function Viewfinder({ card, place, ask }: FinderProps): JSX.Element {
  const { camera } = usePhone().services.device
  const video = useRef<HTMLVideoElement>(null)
  const view = camera.view.value
  const open = () => {
    if (video.current !== null) void camera.open(video.current)
  }
  useEffect(() => {
    open()
    return () => camera.close()
  }, [camera])
  const live = view === 'live'
  // On a small phone the words above it would push the picture under the keys.
  useEffect(() => {
    if (live) video.current?.scrollIntoView({ block: 'nearest' })
  }, [live])
  return (
    <>
      <div class={live ? 'viewfinder viewfinder-live' : 'viewfinder'}>
        <video
          ref={video}
          class={live ? 'video' : 'video-off'}
          playsInline
          muted
          tabIndex={-1}
          aria-label={askWords.photo.viewfinder}
        />
        {live && ask && place && <Outline ask={ask} place={place} class="framing" />}
        {live && <SideWord ask={ask} />}
        {view === 'denied' && <NoCamera title={askWords.photo.denied} why={askWords.photo.deniedWhy} />}
        {view === 'none' && <NoCamera title={askWords.photo.none} why={askWords.photo.noneWhy} />}
        {view === 'in_use' && <NoCamera title={photoWords.inUse} why={photoWords.inUseWhy} onAgain={open} />}
        {(view === 'off' || view === 'asking') && <p role="status">{askWords.photo.starting}</p>}
      </div>
      {!live && ask?.outline && place && <Outline ask={ask} place={place} class="framing-aside" />}
      <FramingWords card={card} ask={ask} />
    </>
  )
}

function NoCamera(props: { title: string; why: string; onAgain?: () => void }): JSX.Element {
  return (
    <div class="no-camera" role="status">
      <Mark name="camera" />
      <p>
        <strong>{props.title}</strong>
      </p>
      <p>{props.why}</p>
      {props.onAgain && <Key onPress={props.onAgain}>{photoWords.tryAgain}</Key>}
    </div>
  )
}

/** The side that the slot names, large over the picture: the wrong one is what happens. */
function SideWord({ ask }: { ask: PhotoAsk | undefined }): JSX.Element | null {
  const side = ask && sideNamed(ask)
  return side ? <b class="side side-over">{photoWords.side[side]}</b> : null
}

function FramingWords({ card, ask }: { card: Card; ask: PhotoAsk | undefined }): JSX.Element {
  const part = partWords(jobViewOf(card))
  return (
    <p class="soft framing-words">
      {ask?.framing && `${photoWords.frame(ask.framing)}. `}
      {part !== '' && photoWords.car(part)}
    </p>
  )
}
