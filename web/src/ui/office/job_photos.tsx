// Photos by slot: wanted, recorded but not here yet, at the office; and those without a slot.
import type { JSX } from 'preact'
import type { PhotoView, PhotoViews, SlotView } from '../../core/views/office_photos.ts'
import { photoUrl, thumbUrl } from '../../office_api/client.ts'
import { Mark } from '../parts/mark.tsx'
import { when } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import type { AskFor } from './job_ask.ts'
import { PART } from './job_jump.tsx'
import { useMinute } from './office_clock.tsx'
import { personName, useOffice } from './office_desk.ts'

const words = o.job.photos

export function JobPhotos({ photos, onAsk }: { photos: PhotoViews; onAsk: AskFor }): JSX.Element {
  const { slots, loose } = photos
  const of = (state: SlotView['state']): readonly SlotView[] => slots.filter((slot) => slot.state === state)
  return (
    <section class="o-part" id={PART.photos} tabIndex={-1} aria-label={words.title}>
      <div class="o-part-head">
        <h2>{words.title}</h2>
        <small>{words.answered(photos.answered, slots.length)}</small>
      </div>
      {slots.length === 0 && <p class="soft">{words.none}</p>}
      <Wall name={words.wantedNow} slots={of('wanted')} onAsk={onAsk} />
      <Wall name={words.onPhones} slots={of('not_here')} onAsk={onAsk} />
      <Wall name={words.here} slots={of('at_office')} onAsk={onAsk} />
      {loose.length > 0 && <h3 class="o-stage">{words.loose}</h3>}
      <ul class="o-photos">
        {loose.map((photo) => (
          <li key={photo.hash}>
            <Picture photo={photo} name={photo.caption || photo.stepTitle || words.loose} onAsk={onAsk} />
          </li>
        ))}
      </ul>
      <Folded name={words.later} slots={of('later')} />
      <Folded name={words.notAsked} slots={of('not_wanted')} />
    </section>
  )
}

type WallProps = { name: (n: number) => string; slots: readonly SlotView[]; onAsk: AskFor }

function Wall({ name, slots, onAsk }: WallProps): JSX.Element | null {
  if (slots.length === 0) return null
  return (
    <>
      <h3 class="o-stage">{name(slots.length)}</h3>
      <ul class="o-photos">
        {slots.map((slot) => (
          <Slot key={keyOf(slot)} slot={slot} onAsk={onAsk} />
        ))}
      </ul>
    </>
  )
}

const keyOf = (slot: SlotView): string => `${slot.method}/${slot.step}/${slot.slot}`

function Slot({ slot, onAsk }: { slot: SlotView; onAsk: AskFor }): JSX.Element {
  if (slot.photos.length === 0) return <WantedSlot slot={slot} />
  return (
    <>
      {slot.photos.map((photo) => (
        <li key={photo.hash}>
          <Picture photo={photo} name={slot.name} number={slot.number} onAsk={onAsk} />
        </li>
      ))}
    </>
  )
}

function WantedSlot({ slot }: { slot: SlotView }): JSX.Element {
  return (
    <li>
      <div class="o-frame o-corners">
        <p>
          <Mark name="camera" />
          <span>
            <strong>{slot.number}</strong> {slot.name}
            <small>{slot.show}</small>
          </span>
        </p>
      </div>
      <p class="o-caption">
        {slot.stepTitle}
        {slot.deadline !== '' && <small>{words.before(slot.deadline)}</small>}
      </p>
    </li>
  )
}

/** What need not be looked at now: named, and folded away. */
function Folded({ name, slots }: Omit<WallProps, 'onAsk'>): JSX.Element | null {
  if (slots.length === 0) return null
  return (
    <details class="o-fold">
      <summary>{name(slots.length)}</summary>
      <ul class="o-plain">
        {slots.map((slot) => (
          <li key={keyOf(slot)}>
            <strong>{slot.number}</strong> {slot.name}
          </li>
        ))}
      </ul>
    </details>
  )
}

type PictureProps = { photo: PhotoView; name: string; number?: number; onAsk: AskFor }

function Picture({ photo, name, number, onAsk }: PictureProps): JSX.Element {
  const { shop } = useOffice()
  const now_ms = useMinute()
  return (
    <>
      {photo.here || photo.thumbHere ? (
        <button
          type="button"
          class="o-frame o-picture"
          aria-label={words.open(name)}
          onClick={() => onAsk({ act: 'photo', photo, name })}
        >
          <img src={photo.thumbHere ? thumbUrl(photo.thumb) : photoUrl(photo.sha256)} alt="" loading="lazy" />
        </button>
      ) : (
        <div class="o-frame o-corners">
          <p>
            <Mark name="phone" />
            <span>{words.notHere}</span>
          </p>
        </div>
      )}
      <p class="o-caption">
        {number !== undefined && <strong>{number} </strong>}
        {name}
        <small>
          {personName(shop, photo.by)}, {when(photo.at_ms, now_ms)}
          {!photo.here && photo.thumbHere && <strong> · {words.notHere}</strong>}
        </small>
        {photo.caption !== '' && photo.caption !== name && <small>{photo.caption}</small>}
      </p>
    </>
  )
}

/** One photo in its sheet: the whole picture where it is here, else the small one. */
export function PhotoSheet({ photo, name, onAsk }: PictureProps): JSX.Element {
  const { shop } = useOffice()
  const now_ms = useMinute()
  return (
    <>
      <img
        class="o-whole"
        src={photo.here ? photoUrl(photo.sha256) : thumbUrl(photo.thumb)}
        width={photo.width}
        height={photo.height}
        alt={words.picture(name)}
      />
      <p>
        {personName(shop, photo.by)}, {when(photo.at_ms, now_ms)} ·{' '}
        {photo.here ? words.atOffice : words.notHere}
        {photo.caption !== '' && ` · ${photo.caption}`}
      </p>
      <div class="o-keys">
        {photo.here && (
          <a class="key key-plain" href={photoUrl(photo.sha256)} target="_blank" rel="noreferrer">
            <span>{words.whole}</span>
          </a>
        )}
        <button
          type="button"
          class="key key-plain"
          aria-label={words.sendBack(name)}
          onClick={() => onAsk({ act: 'send_back', hashes: [photo.hash], words: name })}
        >
          <span>{o.job.timeLine.sendBack}</span>
        </button>
        <button
          type="button"
          class="key key-stop"
          aria-label={`${o.job.timeLine.strike}: ${name}`}
          onClick={() => onAsk({ act: 'strike', hash: photo.hash, words: name })}
        >
          <span>{o.job.timeLine.strike}</span>
        </button>
      </div>
    </>
  )
}
