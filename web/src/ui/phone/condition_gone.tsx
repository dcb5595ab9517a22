// A standing condition that does not hold any more: what that means, and the ways on.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import { condition } from '../../core/views/drafts.ts'
import type { Standing } from '../../core/views/morning_view.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { w } from '../words/en.ts'
import { morningWords } from '../words/en_step.ts'
import { usePhone } from './context.ts'
import './morning.css'
import { paths } from './router.ts'

/** Nobody goes on by habit: what was found is written, and it holds again only when somebody has seen so. */
export function Gone({ card, one }: { card: Card; one: Standing }): JSX.Element {
  const { record } = usePhone()
  const { doc, setBy } = one
  const again = () => void record(card.job, [condition(card, doc.id, true)])
  return (
    <div class="morning-gone">
      <p>
        <strong class="in-stop">{morningWords.goneTitle}</strong> {morningWords.goneLine}
      </p>
      <div class="keys">
        <KeyLink
          tone="dev"
          mark="deviation"
          href={paths.write(card.job, setBy?.method.id ?? '', setBy?.step.id ?? '', 'deviation')}
        >
          {morningWords.record}
        </KeyLink>
        {setBy && (
          <KeyLink href={paths.step(card.job, setBy.method.id, setBy.step.id)}>
            {w.card.step(setBy.number)}: {setBy.step.title}
          </KeyLink>
        )}
        <Key onPress={again} label={`${morningWords.again}: ${doc.name}`}>
          {morningWords.again}
        </Key>
      </div>
    </div>
  )
}
