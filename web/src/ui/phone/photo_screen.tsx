// A photo: the camera inside the page, a file as the other way; what is too late is asked about first.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { PhotoAsk } from '../../core/method.ts'
import type { Card, Known, StepPlace } from '../../core/views/card.ts'
import { deviationOf, slotOf } from '../../core/views/photo_view.ts'
import { doubtsAbout } from '../../device/picture_quality.ts'
import type { PhotoPlace, PreparedPhoto } from '../../store/types.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { cleaned } from '../parts/words_form.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { mapWords } from '../words/en_map.ts'
import { pageWords } from '../words/en_pages.ts'
import { photoWords } from '../words/en_photo.ts'
import { capital } from '../words/format.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import './photo.css'
import { MissedPhoto } from './photo_missed.tsx'
import { Caption, Preview } from './photo_preview.tsx'
import { TakeKeys } from './photo_take.tsx'
import { TakenList } from './photo_taken.tsx'
import { Viewfinder } from './viewfinder.tsx'

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

export function PhotoScreen(props: PhotoProps): JSX.Element {
  const { card, place, ask, photos, back } = props
  const [allTheSame, setAllTheSame] = useState(false)
  const slot = place && ask && photos.length === 0 ? slotOf(card, place, ask) : undefined
  if (slot?.missed && !allTheSame && deviationOf(card, slot) === undefined)
    return <MissedPhoto card={card} slot={slot} back={back} onTake={() => setAllTheSame(true)} />
  return <TakePhoto {...props} />
}

function TakePhoto({ card, place, ask, position = '', photos, back, onDone }: PhotoProps): JSX.Element {
  const { recordPhoto } = usePhone()
  const [taken, setTaken] = useState<PreparedPhoto>()
  const [caption, setCaption] = useState('')
  const [keeping, setKeeping] = useState(false)
  const safe = useReturnTo(location.pathname)
  const keep = async () => {
    if (taken === undefined || keeping) return
    setKeeping(true)
    const written = await recordPhoto(card.job, taken, placeOfPhoto(place, ask, position, cleaned(caption)))
    setKeeping(false)
    if (written) onDone()
  }
  const again = () => setTaken(undefined)
  return (
    <Frame
      act={`${card.job}/${place?.step.id}/${ask?.id}/photo/${taken ? 'taken' : ''}`}
      card={card}
      place={place}
      back={back}
      foot={
        taken ? (
          <KeepKeys photo={taken} keeping={keeping} onKeep={() => void keep()} onAgain={again} />
        ) : (
          <TakeKeys words={ask?.show} onTaken={setTaken} />
        )
      }
    >
      <Leaf plain>
        <p class="stage">{place ? place.step.title : pageWords.photo}</p>
        <h1 class="act-small close" tabIndex={-1}>
          {titleOf(ask, position)}
        </h1>
        {place && ask && photos.length === 0 && !taken && <Gone card={card} place={place} ask={ask} />}
        {taken && <Preview photo={taken} />}
        {!taken && safe && <Viewfinder card={card} place={place} ask={ask} />}
        {ask === undefined && taken && <Caption value={caption} onValue={setCaption} />}
        <TakenList card={card} photos={photos} />
      </Leaf>
    </Frame>
  )
}

function titleOf(ask: PhotoAsk | undefined, position: string): string {
  if (ask) return capital(ask.show || ask.name)
  return position === '' ? w.card.slot.loose : mapWords.photo(position)
}

type KeepProps = { photo: PreparedPhoto; keeping: boolean; onKeep: () => void; onAgain: () => void }

/** The large key is what the figures advise; the other stays, and nothing is refused. */
function KeepKeys({ photo, keeping, onKeep, onAgain }: KeepProps): JSX.Element {
  const doubted = photo.quality !== undefined && doubtsAbout(photo.quality).length > 0
  const keep = (
    <Key tone={doubted ? 'plain' : 'main'} onPress={onKeep}>
      {keeping ? askWords.photo.keeping : askWords.photo.use}
    </Key>
  )
  const again = (
    <Key tone={doubted ? 'main' : 'plain'} onPress={onAgain}>
      {askWords.photo.retake}
    </Key>
  )
  return doubted ? (
    <>
      {again}
      {keep}
    </>
  ) : (
    <>
      {keep}
      {again}
    </>
  )
}

/** Why the slot asks again. */
function Gone(props: { card: Card; place: StepPlace; ask: PhotoAsk }): JSX.Element | null {
  const gone = slotOf(props.card, props.place, props.ask).gone.at(-1)
  if (gone === undefined) return null
  return (
    <p>
      <span class="in-stop">{photoWords.gone[gone.by](gone.why)}</span> {photoWords.gone.again}
    </p>
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

/**
 * A camera can kill the page: after a restart the phone comes back to this slot. True once that is on disk, or
 * once it is known that it cannot be: a full store is said by the record itself.
 */
function useReturnTo(path: string): boolean {
  const { store } = usePhone().services
  const [safe, setSafe] = useState(false)
  useEffect(() => {
    const keep = (where: string) => store.setSetting('return_to', where).catch(() => undefined)
    void keep(path).then(() => setSafe(true))
    return () => void keep('')
  }, [store, path])
  return safe
}
