// The page that teaches how a method is written, as the server keeps it.
import type { JSX } from 'preact'
import { type Block, blocksOf, type Inline } from '../../core/views/markdown_blocks.ts'
import { o } from '../words/office_en.ts'
import { guide as words } from '../words/office_en_methods.ts'
import { useOffice, useRoute } from './office_desk.ts'
import { Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'
import './office_methods.css'

export function GuideScreen(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.methodGuide, 0, 'guide')
  return (
    <>
      <p>
        <a href={linkTo.methods}>{o.methods.all}</a>
      </p>
      <SeenPage seen={seen} refresh={refresh}>
        {(text) => <Guide blocks={blocksOf(text)} />}
      </SeenPage>
    </>
  )
}

function Guide({ blocks }: { blocks: readonly Block[] }): JSX.Element {
  const headings = blocks.filter((block) => block.as === 'heading' && block.level === 2)
  return (
    <article class="o-guide">
      <Head title={words.title} />
      <nav aria-label={words.at}>
        <ul class="o-plain">
          {headings.map(
            (one) =>
              one.as === 'heading' && (
                <li key={one.id}>
                  <a href={`#${one.id}`}>{one.text}</a>
                </li>
              ),
          )}
        </ul>
      </nav>
      {blocks.map((block, at) => (
        <BlockPart key={`${at} ${block.as}`} block={block} />
      ))}
    </article>
  )
}

function BlockPart({ block }: { block: Block }): JSX.Element | null {
  switch (block.as) {
    case 'heading':
      if (block.level === 1) return null // the page has its own
      return block.level === 2 ? <h2 id={block.id}>{block.text}</h2> : <h3 id={block.id}>{block.text}</h3>
    case 'code':
      return (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide piece is scrolled by its keys
        <pre tabIndex={0}>
          <code>{block.text}</code>
        </pre>
      )
    case 'list':
      return (
        <ul>
          {block.items.map((item) => (
            <li key={JSON.stringify(item)}>
              <Parts parts={item} />
            </li>
          ))}
        </ul>
      )
    case 'paragraph':
      return (
        <p>
          <Parts parts={block.parts} />
        </p>
      )
  }
}

function Parts({ parts }: { parts: readonly Inline[] }): JSX.Element {
  return (
    <>
      {parts.map((part, at) => {
        const key = `${at} ${part.text}`
        if (part.as === 'code') return <code key={key}>{part.text}</code>
        if (part.as === 'strong') return <strong key={key}>{part.text}</strong>
        return part.as === 'soft' ? <em key={key}>{part.text}</em> : part.text
      })}
    </>
  )
}
