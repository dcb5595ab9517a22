// What the office has on its shelf: instruments and lots, as the newest bundle told them.
import { useEffect, useState } from 'preact/hooks'
import type { Shelf } from '../../store/sync_side.ts'
import { usePhone } from './context.ts'

const NOTHING: Shelf = { instruments: [], lots: [] }

export function useShelf(): Shelf {
  const { services } = usePhone()
  const [shelf, setShelf] = useState(NOTHING)
  useEffect(() => {
    void services.store
      .setting('shelf')
      .then((kept) => typeof kept === 'string' && setShelf(JSON.parse(kept) as Shelf))
  }, [services])
  return shelf
}
