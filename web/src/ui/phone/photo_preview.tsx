// The photo just taken, with what its figures say of it, while it can still be taken again.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { doubtsAbout } from '../../device/picture_quality.ts'
import type { PreparedPhoto } from '../../store/types.ts'
import { Mark } from '../parts/mark.tsx'
import { askWords } from '../words/en_asks.ts'
import { qualityWords } from '../words/en_photo.ts'

export function Preview({ photo }: { photo: PreparedPhoto }): JSX.Element {
  const [url, setUrl] = useState('')
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([photo.bytes], { type: photo.type }))
    setUrl(made)
    return () => URL.revokeObjectURL(made)
  }, [photo])
  return (
    <>
      <Quality photo={photo} />
      <img class="preview" src={url} alt={askWords.photo.preview} />
    </>
  )
}

function Quality({ photo: { quality } }: { photo: PreparedPhoto }): JSX.Element | null {
  if (quality === undefined) return null
  const doubts = doubtsAbout(quality)
  if (doubts.length === 0) {
    return (
      <p role="status" class="soft">
        {qualityWords.good(quality)}
      </p>
    )
  }
  return (
    <div role="status" class="doubt">
      <p>
        <Mark name="finding" /> <strong>{qualityWords.again}</strong>
      </p>
      {doubts.map((doubt) => (
        <p key={doubt}>{qualityWords.doubts[doubt](quality)}</p>
      ))}
      <p class="label soft">{qualityWords.source}</p>
    </div>
  )
}

export function Caption({
  value,
  onValue,
}: {
  value: string
  onValue: (value: string) => void
}): JSX.Element {
  return (
    <div class="field">
      <label for="caption">{askWords.photo.caption}</label>
      <input id="caption" value={value} onInput={(event) => onValue(event.currentTarget.value)} />
    </div>
  )
}
