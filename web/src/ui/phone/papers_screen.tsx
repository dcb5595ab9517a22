// The makers' instructions of the job, offline: opened by the browser's own viewer, or saved as a file.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { Card } from '../../core/views/card.ts'
import type { PaperRow } from '../../store/types.ts'
import { KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { pageWords } from '../words/en_pages.ts'
import { paperWords } from '../words/en_papers.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import './papers.css'
import { paths } from './router.ts'
import { usePapers } from './use_papers.ts'

export function PapersScreen({ card }: { card: Card }): JSX.Element {
  const papers = usePapers(card)
  return (
    <Frame
      act={`${card.job}/papers`}
      card={card}
      back={paths.card(card.job)}
      foot={<KeyLink href={paths.card(card.job)}>{pageWords.toCard}</KeyLink>}
    >
      <Leaf plain>
        <h1 class="act" tabIndex={-1}>
          {papers.length === 0 ? paperWords.none : paperWords.title(papers.length)}
        </h1>
        {papers.length === 0 ? <p>{paperWords.noneNext}</p> : <p>{paperWords.first}</p>}
        {papers.map((paper) => (
          <Paper key={`${paper.sha256}/${paper.job}/${paper.method}`} card={card} paper={paper} />
        ))}
        {papers.length > 0 && <Ways />}
      </Leaf>
    </Frame>
  )
}

function Paper({ card, paper }: { card: Card; paper: PaperRow }): JSX.Element {
  const url = usePdf(paper)
  const method = card.steps.find((place) => place.method.id === paper.method)?.method
  return (
    <section class="paper">
      <h2>{paper.name}</h2>
      <p class="soft">
        {paperWords.size(paper.bytes)}, {method ? paperWords.ofMethod(method.title) : paperWords.ofJob}
      </p>
      {paper.here ? (
        <>
          <StateWord state="phone" word={paperWords.here} />
          {url !== '' && (
            <div class="paper-keys">
              <a
                class="key key-main"
                href={url}
                target="_blank"
                rel="noreferrer"
                aria-label={paperWords.openOf(paper.name)}
              >
                <span>{paperWords.open}</span>
              </a>
              <a
                class="key key-plain"
                href={url}
                download={fileName(paper.name)}
                aria-label={paperWords.saveOf(paper.name)}
              >
                <span>{paperWords.save}</span>
              </a>
            </div>
          )}
        </>
      ) : (
        <StateWord state="waits" word={paperWords.notHere} />
      )}
    </section>
  )
}

function fileName(name: string): string {
  const plain = name.replace(/[\\/:*?"<>|]/g, '-')
  return /\.pdf$/i.test(plain) ? plain : `${plain}.pdf`
}

/** An address of its bytes that needs no network, for as long as the page is shown. */
function usePdf({ sha256, here }: PaperRow): string {
  const { store } = usePhone().services
  const [url, setUrl] = useState('')
  useEffect(() => {
    let made = ''
    let gone = false
    const show = async () => {
      const pdf = await store.paper(sha256)
      if (pdf === undefined || gone) return
      made = URL.createObjectURL(pdf)
      setUrl(made)
    }
    if (here) void show()
    return () => {
      gone = true
      URL.revokeObjectURL(made)
    }
  }, [store, sha256, here])
  return url
}

function Ways(): JSX.Element {
  return (
    <details class="paper-ways">
      <summary>{paperWords.how}</summary>
      <ul>
        {paperWords.ways.map((way) => (
          <li key={way}>{way}</li>
        ))}
      </ul>
    </details>
  )
}
