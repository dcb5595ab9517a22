// The makers' instructions of a job: its own, and those of its methods.
import { useEffect, useState } from 'preact/hooks'
import type { Card } from '../../core/views/card.ts'
import type { PaperRow } from '../../store/types.ts'
import { usePhone } from './context.ts'

export function usePapers(card: Card): readonly PaperRow[] {
  const { store } = usePhone().services
  const [papers, setPapers] = useState<readonly PaperRow[]>([])
  useEffect(() => {
    const methods = new Set(card.steps.map(({ method }) => method.id))
    const mine = ({ job, method }: PaperRow) =>
      (job === '' || job === card.job) && (method === '' || methods.has(method))
    void store.papers().then((rows) => setPapers(rows.filter(mine)))
  }, [store, card])
  return papers
}
