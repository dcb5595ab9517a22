// The method's line drawing of what must be in the frame: in a slot, and over the picture in the viewfinder.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { PhotoAsk } from '../../core/method.ts'
import type { StepPlace } from '../../core/views/card.ts'
import { usePhone } from './context.ts'

type OutlineProps = { ask: PhotoAsk; place: StepPlace; class: string; none?: JSX.Element | null }

/** `none` stands there while the slot has no drawing on this phone. */
export function Outline({ ask, place, class: name, none = null }: OutlineProps): JSX.Element | null {
  const url = useDrawing(place.method.drawings[ask.outline ?? ask.id])
  return url === '' ? none : <img class={name} src={url} alt="" />
}

function useDrawing(sha256: string | undefined): string {
  const { store } = usePhone().services
  const [url, setUrl] = useState('')
  useEffect(() => {
    let made = ''
    let gone = false
    const show = async (hash: string) => {
      const blob = await store.drawing(hash)
      if (blob === undefined || gone) return
      made = URL.createObjectURL(blob)
      setUrl(made)
    }
    setUrl('')
    if (sha256 !== undefined) void show(sha256)
    return () => {
      gone = true
      URL.revokeObjectURL(made)
    }
  }, [store, sha256])
  return url
}
