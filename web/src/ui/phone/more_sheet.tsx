// What else can be recorded at a step, and the ways to other pages: behind 'More'.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Sheet } from '../parts/sheet.tsx'
import { w } from '../words/en.ts'
import { pageWords } from '../words/en_pages.ts'
import { paperWords } from '../words/en_papers.ts'
import { heldWords } from '../words/en_step.ts'
import { paths } from './router.ts'
import { firstOpen, useDone } from './step_done.ts'
import { usePapers } from './use_papers.ts'

type KeyProps = {
  card: Card
  place: StepPlace
  asks: readonly AskView[]
  onGo: (path: string) => void
}

type MoreProps = KeyProps & { onClose: () => void }

export function MoreKey(props: KeyProps): JSX.Element {
  const [more, setMore] = useState(false)
  return (
    <>
      <Key onPress={() => setMore(true)}>{w.card.more}</Key>
      {more && <MoreSheet {...props} onClose={() => setMore(false)} />}
    </>
  )
}

export function MoreSheet(props: MoreProps): JSX.Element {
  const { card, place, asks, onGo, onClose } = props
  const done = useDone(card, place)
  const { method, step } = place
  const write = (what: 'deviation' | 'not_applicable' | 'later') =>
    paths.write(card.job, method.id, step.id, what)
  const papers = usePapers(card)
  const open = asks.filter((view) => view.open).length
  return (
    <Sheet title={pageWords.moreTitle} onClose={onClose}>
      <div class="keys">
        <KeyLink tone="dev" mark="deviation" href={write('deviation')}>
          {w.card.deviation}
        </KeyLink>
        {place.state.hold === 'held' && (
          <KeyLink
            tone="dev"
            mark="deviation"
            href={paths.write(card.job, method.id, step.id, 'already_done')}
          >
            {heldWords.already}
          </KeyLink>
        )}
        <KeyLink mark="camera" href={paths.photo(card.job)}>
          {w.card.slot.loose}
        </KeyLink>
        {place.state.done === '' && place.state.later.length === 0 && (
          <KeyLink mark="later" href={write('later')}>
            {pageWords.later}
          </KeyLink>
        )}
        {place.state.done === '' && (
          <KeyLink mark="absent" href={write('not_applicable')}>
            {pageWords.notApplicable}
          </KeyLink>
        )}
        {place.state.done === '' && firstOpen(asks) !== undefined && (
          <Key small={w.card.openAsks(open)} onPress={() => void done().then(onClose)}>
            {pageWords.doneOpen}
          </Key>
        )}
        <KeyLink href={paths.wanted(card.job)}>{w.phone.wanted.page}</KeyLink>
        {papers.length > 0 && <KeyLink href={paths.papers(card.job)}>{paperWords.key}</KeyLink>}
        <KeyLink href={paths.records(card.job)}>{w.phone.jobs.records}</KeyLink>
        <Key onPress={() => onGo(paths.self)}>{w.phone.jobs.thisPhone}</Key>
      </div>
    </Sheet>
  )
}
