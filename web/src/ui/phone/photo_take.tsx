// The keys that take a photo: shoot, light, choose a file, or in the demo pick a drawn picture.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { PhotoFault } from '../../device/photo_fault.ts'
import type { PreparedPhoto } from '../../store/types.ts'
import { Key } from '../parts/key.tsx'
import { askWords } from '../words/en_asks.ts'
import { photoWords } from '../words/en_photo.ts'
import { usePhone } from './context.ts'
// Comes with this page: a picture that is taken must find what keeps it.
import '../../store/photo_entries.ts'

type TakeProps = { words: string | undefined; onTaken: (photo: PreparedPhoto) => void }
type Make = () => Promise<PreparedPhoto>

export function TakeKeys({ words, onTaken }: TakeProps): JSX.Element {
  const { device, demo } = usePhone().services
  const { camera } = device
  const [fault, setFault] = useState<PhotoFault['code']>()
  const prepare = async (make: Make) => {
    try {
      setFault(undefined)
      onTaken(await make())
    } catch (error) {
      if (!(error instanceof PhotoFault)) throw error
      setFault(error.code)
    }
  }
  const live = camera.view.value === 'live'
  const lit = camera.torch.value === 'on'
  return (
    <>
      {fault && (
        <p role="alert" class="in-stop">
          {askWords.photo.fault[fault]}
        </p>
      )}
      {live && (
        <Key tone="main" mark="camera" onPress={() => void prepare(() => camera.shoot())}>
          {askWords.photo.shoot}
        </Key>
      )}
      <FileKey large={!live} onFile={(file) => void prepare(() => device.preparePhoto(file))} />
      {live && camera.torch.value !== 'none' && (
        <Key pressed={lit} onPress={() => void camera.light(!lit)}>
          {lit ? photoWords.lightOff : photoWords.lightOn}
        </Key>
      )}
      {demo && <DemoPhotos folded={live} words={words} onPick={(make) => void prepare(make)} />}
    </>
  )
}

function FileKey({ large, onFile }: { large: boolean; onFile: (file: File) => void }): JSX.Element {
  return (
    <label class={large ? 'key key-main key-large file-key' : 'key key-plain file-key'}>
      <span>{askWords.photo.fromFile}</span>
      <input
        type="file"
        accept="image/jpeg,image/png"
        onChange={(event) => {
          const file = event.currentTarget.files?.[0]
          if (file) onFile(file)
          event.currentTarget.value = ''
        }}
      />
    </label>
  )
}

type DemoProps = { folded: boolean; words: string | undefined; onPick: (make: Make) => void }

/** Folded away while the camera shows a picture, which needs the room. */
function DemoPhotos({ folded, ...props }: DemoProps): JSX.Element {
  if (!folded) return <DemoKeys {...props} />
  return (
    <details class="foot-wide demo-photos">
      <summary>{askWords.photo.demo}</summary>
      <DemoKeys {...props} />
    </details>
  )
}

/** What the slot wants is drawn into the picture. */
function DemoKeys({ words, onPick }: Omit<DemoProps, 'folded'>): JSX.Element {
  const { device } = usePhone().services
  return (
    <fieldset class="keys keys-three foot-wide">
      <legend class="label">{askWords.photo.demo}</legend>
      {device.demoPhotos().map(({ id, make }) => (
        <Key key={id} onPress={() => onPick(() => make(words))}>
          {askWords.photo.demoNames[id] ?? id}
        </Key>
      ))}
    </fieldset>
  )
}
