// A photo: the camera inside the page, a file as the other way, drawn pictures in the demo.
import type { JSX } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import type { PhotoAsk } from '../../core/method.ts'
import type { Card, Known, StepPlace } from '../../core/views/card.ts'
import { PhotoFault } from '../../device/photo_fault.ts'
import type { PhotoPlace, PreparedPhoto } from '../../store/types.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { cleaned } from '../parts/words_form.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { mapWords } from '../words/en_map.ts'
import { pageWords } from '../words/en_pages.ts'
import { capital, clockTime } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { Thumb } from './photo_slot.tsx'
import { paths } from './router.ts'
import { Framing, Viewfinder } from './viewfinder.tsx'

type PhotoProps = {
  card: Card
  place: StepPlace | undefined
  ask: PhotoAsk | undefined
  /** A position of the fastener map that it shows. */
  position?: string
  photos: readonly Known[]
  back: string
  onDone: () => void
}

export function PhotoScreen({
  card,
  place,
  ask,
  position = '',
  photos,
  back,
  onDone,
}: PhotoProps): JSX.Element {
  const { recordPhoto } = usePhone()
  const [taken, setTaken] = useState<PreparedPhoto>()
  const [caption, setCaption] = useState('')
  const [keeping, setKeeping] = useState(false)
  const keep = async () => {
    if (taken === undefined || keeping) return
    setKeeping(true)
    const written = await recordPhoto(card.job, taken, placeOfPhoto(place, ask, position, cleaned(caption)))
    setKeeping(false)
    if (written) onDone()
  }
  useReturnTo(location.pathname)
  return (
    <Frame
      act={`${card.job}/${place?.step.id}/${ask?.id}/photo/${taken ? 'taken' : ''}`}
      card={card}
      place={place}
      back={back}
      foot={
        taken ? (
          <>
            <Key tone="main" onPress={() => void keep()}>
              {keeping ? askWords.photo.keeping : askWords.photo.use}
            </Key>
            <Key onPress={() => setTaken(undefined)}>{askWords.photo.retake}</Key>
          </>
        ) : (
          <TakeKeys onTaken={setTaken} />
        )
      }
    >
      <Leaf plain>
        <p class="stage">{place ? place.step.title : pageWords.photo}</p>
        <h1 class="act-small close" tabIndex={-1}>
          {ask
            ? capital(ask.show || ask.name)
            : position === ''
              ? w.card.slot.loose
              : mapWords.photo(position)}
        </h1>
        {taken ? (
          <Preview photo={taken} />
        ) : (
          <Viewfinder framing={ask && place ? <Framing ask={ask} place={place} /> : undefined} />
        )}
        {ask === undefined && taken && <Caption value={caption} onValue={setCaption} />}
        <TakenList card={card} photos={photos} />
      </Leaf>
    </Frame>
  )
}

function placeOfPhoto(
  place: StepPlace | undefined,
  ask: PhotoAsk | undefined,
  position: string,
  caption: string,
): PhotoPlace {
  const slot = place && ask
  return {
    method: slot ? place.method.id : '',
    digest: slot ? place.digest : '',
    step: slot ? place.step.id : '',
    slot: slot ? ask.id : '',
    position,
    caption,
  }
}

/** The camera app can kill the page: after a restart the phone comes back to this slot. */
function useReturnTo(path: string): void {
  const { store } = usePhone().services
  useEffect(() => {
    const keep = (where: string) => {
      store.setSetting('return_to', where).catch(() => undefined) // a full store is said by the record itself
    }
    keep(path)
    return () => keep('')
  }, [store, path])
}

/** Shoot, choose a file, or in the demo pick a drawn picture. */
function TakeKeys({ onTaken }: { onTaken: (photo: PreparedPhoto) => void }): JSX.Element {
  const { services } = usePhone()
  const { device, demo } = services
  const input = useRef<HTMLInputElement>(null)
  const [fault, setFault] = useState<PhotoFault['code']>()
  const prepare = async (make: () => Promise<PreparedPhoto>) => {
    try {
      setFault(undefined)
      onTaken(await make())
    } catch (error) {
      if (!(error instanceof PhotoFault)) throw error
      setFault(error.code)
    }
  }
  const live = device.camera.view.value === 'live'
  return (
    <>
      {fault && (
        <p role="alert" class="in-stop">
          {askWords.photo.fault[fault]}
        </p>
      )}
      {live && (
        <Key tone="main" mark="camera" onPress={() => void prepare(() => device.camera.shoot())}>
          {askWords.photo.shoot}
        </Key>
      )}
      <label class={live ? 'key key-plain file-key' : 'key key-main key-large file-key'}>
        <span>{askWords.photo.fromFile}</span>
        <input
          ref={input}
          type="file"
          accept="image/jpeg,image/png"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0]
            if (file) void prepare(() => device.preparePhoto(file))
            event.currentTarget.value = ''
          }}
        />
      </label>
      {demo && <DemoPhotos onPick={(make) => void prepare(make)} />}
    </>
  )
}

function DemoPhotos({ onPick }: { onPick: (make: () => Promise<PreparedPhoto>) => void }): JSX.Element {
  const { device } = usePhone().services
  return (
    <fieldset class="keys keys-three foot-wide">
      <legend class="label">{askWords.photo.demo}</legend>
      {device.demoPhotos().map(({ id, make }) => (
        <Key key={id} onPress={() => onPick(make)}>
          {askWords.photo.demoNames[id] ?? id}
        </Key>
      ))}
    </fieldset>
  )
}

function Preview({ photo }: { photo: PreparedPhoto }): JSX.Element {
  const [url, setUrl] = useState('')
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([photo.bytes], { type: photo.type }))
    setUrl(made)
    return () => URL.revokeObjectURL(made)
  }, [photo])
  return <img class="preview" src={url} alt={askWords.photo.preview} />
}

function Caption({ value, onValue }: { value: string; onValue: (value: string) => void }): JSX.Element {
  return (
    <div class="field">
      <label for="caption">{askWords.photo.caption}</label>
      <input id="caption" value={value} onInput={(event) => onValue(event.currentTarget.value)} />
    </div>
  )
}

function TakenList({ card, photos }: { card: Card; photos: readonly Known[] }): JSX.Element | null {
  if (photos.length === 0) return null
  return (
    <ul class="taken">
      {photos.map((photo) => (
        <li key={photo.entry.hash}>
          <Thumb photo={photo} />
          <StateWord state={photo.where} />
          <span class="label soft">
            {w.common.by(personName(card, photo.entry.by), clockTime(photo.entry.at_ms))}
          </span>
          <span class="taken-keys">
            <a class="key key-plain" href={paths.move(card.job, photo.entry.hash)}>
              {w.card.slot.move}
            </a>
            <a class="key key-plain" href={paths.strike(card.job, photo.entry.hash)}>
              {w.card.strike}
            </a>
          </span>
        </li>
      ))}
    </ul>
  )
}
