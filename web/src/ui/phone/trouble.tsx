// What can go wrong with this phone, each with what, why and the mend; what was recorded stays readable.
import type { JSX } from 'preact'
import type { StoreHealth } from '../../store/types.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { recordWords } from '../words/en_records.ts'
import { selfWords } from '../words/en_self.ts'
import { troubleWords } from '../words/en_trouble.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import type { Unsaved } from './model.ts'
import { go, paths } from './router.ts'

/** A write that failed stays on top of everything until it is recorded again or let be. */
export function UnsavedPage(): JSX.Element | null {
  const { unsaved } = usePhone()
  const lost = unsaved.value
  if (lost === undefined) return null
  const words = troubleWords
  const cause = words[lost.code]
  return (
    <Frame
      act={`unsaved/${lost.code}`}
      over
      what={words.unsaved.title}
      foot={
        <>
          <Key tone="main" onPress={() => void recordAgain(lost)}>
            {words.unsaved.key}
          </Key>
          <Key
            onPress={() => {
              unsaved.value = undefined
            }}
          >
            {words.unsaved.drop}
          </Key>
          <KeyLink href={paths.handIn}>{recordWords.sheet.handIn}</KeyLink>
        </>
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {words.unsaved.title}
        </h1>
        <StateWord state="finding" word={cause.title} />
        <p class="lead" role="alert">
          {cause.what}
        </p>
        <p>{cause.mend}</p>
        {lost.tries > 1 && <p role="status">{words.unsaved.tried(lost.tries)}</p>}
      </Leaf>
    </Frame>
  )
}

/** Once it is kept, on to the next act: the page that made it would look as if it were not. */
async function recordAgain({ job, retry }: Unsaved): Promise<void> {
  if ((await retry()) !== undefined) go(paths.card(job), 'replace')
}

/** A store that is gone or shut before anything is written. */
export function StorePage({ health }: { health: Exclude<StoreHealth, 'ok'> }): JSX.Element {
  const { services } = usePhone()
  const words = troubleWords[health]
  return (
    <Frame
      act={`store/${health}`}
      what={selfWords.title}
      foot={
        health === 'lost' ? (
          <Key tone="main" onPress={() => location.assign(services.pairingPath)}>
            {troubleWords.unpaired.key}
          </Key>
        ) : (
          <Key tone="main" onPress={() => location.reload()}>
            {troubleWords.closed.key}
          </Key>
        )
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {words.title}
        </h1>
        <p class="lead" role="alert">
          {words.what}
        </p>
        <p>{words.mend}</p>
      </Leaf>
    </Frame>
  )
}

export function UnpairedPage(): JSX.Element {
  const { services } = usePhone()
  const words = troubleWords.unpaired
  return (
    <Frame
      act="unpaired"
      what={selfWords.title}
      foot={
        <Key tone="main" onPress={() => location.assign(services.pairingPath)}>
          {words.key}
        </Key>
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {words.title}
        </h1>
        <p class="lead">{words.what}</p>
      </Leaf>
    </Frame>
  )
}
