// The method's drawing as the address of a picture: read out of the phone's store, shown, never put into the page.
import { useEffect, useState } from 'preact/hooks'
import { usePhone } from './context.ts'

/** Empty while the drawing is not here. */
export function useDrawing(sha256: string | undefined): string {
  const { store } = usePhone().services
  const [url, setUrl] = useState('')
  useEffect(() => {
    if (sha256 === undefined) return
    let made = ''
    let gone = false
    void store.drawing(sha256).then((blob) => {
      if (blob === undefined || gone) return
      made = URL.createObjectURL(blob)
      setUrl(made)
    })
    return () => {
      gone = true
      URL.revokeObjectURL(made)
    }
  }, [store, sha256])
  return url
}
