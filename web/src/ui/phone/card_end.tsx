// A card with no next act: every step done, no method yet, or only steps that wait.
import type { JSX } from 'preact'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { jobViewOf } from '../../core/views/job_view.ts'
import { progressOf, standingOf } from '../../core/views/statuses.ts'
import { KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { findings } from '../words/en_kinds.ts'
import { pageWords } from '../words/en_pages.ts'
import { heldWords } from '../words/en_step.ts'
import { capital } from '../words/format.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { JustDoneStrip } from './just_done.tsx'
import { go, paths } from './router.ts'
import { RunBand } from './while_hot.tsx'

function endWords(card: Card): { title: string; line: string } {
  const { done, all } = progressOf(card)
  if (all === 0) return { title: pageWords.noMethod, line: pageWords.noMethodNext }
  if (done < all) return { title: pageWords.nothingFree, line: pageWords.nothingFreeNext }
  return { title: pageWords.allDone, line: pageWords.allDoneNext }
}

/** Where no step is free: the hold point that holds the first of those left, recorded done before it passed. */
export function holdOfRest(card: Card): StepPlace | undefined {
  return card.steps.map((place) => standingOf(card, place)).find((one) => one.status === 'held')?.heldBy
}

export function CardEnd({ card }: { card: Card }): JSX.Element {
  const { rows } = usePhone()
  const { title, line } = endWords(card)
  const job = jobViewOf(card)
  const hold = holdOfRest(card)
  const open = card.state.findings.filter((finding) => finding.accepted === '')
  return (
    <Frame
      act={`${card.job}/end`}
      card={card}
      back={paths.jobs}
      foot={
        <>
          {hold && (
            <KeyLink tone="main" href={paths.step(card.job, hold.method.id, hold.step.id)}>
              {heldWords.toHold(hold.number)}
            </KeyLink>
          )}
          <KeyLink tone={hold ? 'plain' : 'main'} href={paths.jobs}>
            {pageWords.toJobs}
          </KeyLink>
          <KeyLink href={paths.write(card.job, '', '', 'note')}>{w.card.note}</KeyLink>
          <KeyLink href={paths.photo(card.job)}>{pageWords.photo}</KeyLink>
          <KeyLink href={paths.steps(card.job)}>{w.card.allSteps}</KeyLink>
        </>
      }
    >
      <JustDoneStrip card={card} onGo={go} />
      <RunBand card={card} />
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {title}
        </h1>
        {rows.value.get(card.job)?.gone && <p>{pageWords.gone}</p>}
        {job.filed ? (
          <p>{pageWords.filed}</p>
        ) : job.closed ? (
          <p>{pageWords.closed}</p>
        ) : (
          <p class="lead">{hold ? capital(heldWords.waitsFor(hold.number, hold.step.title)) : line}</p>
        )}
        {job.wanted > 0 && (
          <KeyLink mark="camera" href={paths.wanted(card.job)}>
            {w.phone.jobs.wanted(job.wanted)}
          </KeyLink>
        )}
        <ul class="lines">
          {open.map((finding) => (
            <li key={`${finding.code}${finding.at.join()}${finding.hashes.join()}`}>
              <StateWord state="finding" word={findings[finding.code]} />{' '}
              <span class="soft">{whereWords(card, finding.at)}</span>
            </li>
          ))}
        </ul>
      </Leaf>
    </Frame>
  )
}

/** Where a finding lies: its step, or the position or device it names. */
function whereWords(card: Card, at: readonly string[]): string {
  const place = card.steps.find((one) => one.method.id === at[0] && one.step.id === at[1])
  if (place === undefined) return at.length === 1 && (at[0]?.length ?? 0) < 32 ? (at[0] ?? '') : ''
  const ask = place.step.asks.find((one) => one.id === at[2])
  return [w.card.step(place.number), capital(ask?.name ?? '')].filter((word) => word !== '').join(', ')
}
