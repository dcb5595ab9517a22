// Hand-in: the records that only this phone has, as a file for the office.
import { useSignal } from '@preact/signals'
import type { JSX } from 'preact'
import { useEffect } from 'preact/hooks'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { recordWords } from '../words/en_records.ts'
import { troubleWords } from '../words/en_trouble.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { keepHandedIn } from './handed_in.ts'
import { paths } from './router.ts'
import { isCutOff } from './trouble_band.tsx'

export function HandInScreen(): JSX.Element {
  const { services } = usePhone()
  const state = useSignal<'' | 'making' | 'saved' | 'failed'>('')
  const file = useSignal('')
  const { entries, photos } = services.sync.status.value.onThisPhone
  useEffect(() => () => URL.revokeObjectURL(file.value), [file])
  const save = async () => {
    state.value = 'making'
    try {
      URL.revokeObjectURL(file.value)
      file.value = URL.createObjectURL(await services.sync.handIn())
      download(file.value, fileName(services.store.identity()?.name ?? '', services.device.clock.now().at_ms))
      await keepHandedIn(services.store, {
        at_ms: services.device.clock.now().at_ms,
        count: entries + photos,
      })
      state.value = 'saved'
    } catch {
      state.value = 'failed'
    }
  }
  const words = recordWords.handIn
  return (
    <Frame
      act="hand-in"
      what={recordWords.title}
      back={paths.records()}
      foot={
        <>
          <Key tone="main" onPress={() => void save()}>
            {state.value === 'making' ? words.making : words.key}
          </Key>
          {state.value === 'saved' && isCutOff(services.sync.status.value.state) && (
            <Key onPress={services.startAnew}>{troubleWords.startAnew}</Key>
          )}
        </>
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {words.title}
        </h1>
        <p class="lead">{words.what}</p>
        <p>
          <strong>{entries + photos === 0 ? words.nothing : words.counts(entries, photos)}</strong>
        </p>
        <p role="status">
          {state.value === 'saved' ? words.saved : state.value === 'failed' ? words.failed : ''}
        </p>
      </Leaf>
    </Frame>
  )
}

function fileName(device: string, at_ms: number): string {
  const day = new Date(at_ms).toISOString().slice(0, 10)
  return `${device.replace(/[^A-Za-z0-9]+/g, '-').toLowerCase() || 'phone'}-${day}.bayleaf-handin`
}

function download(url: string, name: string): void {
  const link = document.createElement('a')
  link.href = url
  link.download = name
  document.body.append(link)
  link.click()
  link.remove()
}
