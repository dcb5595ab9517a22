// The photos whose bytes nobody but this phone has: how many, and how large.
import { useEffect, useState } from 'preact/hooks'
import { usePhone } from './context.ts'

export function useStillHere(): { readonly photos: number; readonly bytes: number } {
  const { store, sync } = usePhone().services
  const [bytes, setBytes] = useState(0)
  const { photos } = sync.status.value.onThisPhone
  useEffect(() => {
    void store.unsentPhotoBytes().then(setBytes)
  }, [store, photos])
  return { photos, bytes }
}
