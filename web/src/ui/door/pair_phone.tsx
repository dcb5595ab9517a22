// The phone's door inside the installed app: type the code, wait for the office, or hear why not.
import type { JSX } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { PairingView } from '../../sync/types.ts'
import { Key } from '../parts/key.tsx'
import { door } from '../words/door_en.ts'
import { DoorPage } from './door_page.tsx'
import { InstallFirst } from './install_first.tsx'
import { CODE_LENGTH, cleanCode, shownCode, strangeLetters } from './pair_code.ts'

/** What is known of the phone that stands at the door. */
export type Doorstep = {
  /** The system keeps records of the installed app and of the browser apart. */
  readonly apart: boolean
  readonly installed: boolean
  /** False on a plain http address: no key, no camera, no lasting store. */
  readonly secure: boolean
  /** It was paired once, and its store is empty now. */
  readonly lost: boolean
}

export type PairPhoneProps = {
  view: PairingView
  doorstep: Doorstep
  /** Spends the code; rejects or comes back with `refused` in the view. */
  onClaim: (code: string, name: string) => Promise<void>
  onInstall?: (() => void) | undefined
  /** The demo lets its phones in without a code. */
  onLetIn?: (() => void) | undefined
}

export function PairPhone({ view, doorstep, onClaim, onInstall, onLetIn }: PairPhoneProps): JSX.Element {
  const [inBrowser, setInBrowser] = useState(false)
  const [anew, setAnew] = useState(false)
  if (!doorstep.secure) return <DoorPage title={door.insecureTitle} mark="refused" words={door.insecure} />
  if (view.at === 'paired') return <DoorPage title={door.pairedTitle} mark="done" words={door.paired} />
  if (view.at === 'waiting' && !anew) return <Waiting check={view.check} onAgain={() => setAnew(true)} />
  const silent = view.at === 'refused' && view.code === 'no_answer'
  if (view.at === 'refused' && !silent && !anew) return <Refused view={view} onAgain={() => setAnew(true)} />
  if (doorstep.apart && !doorstep.installed && !inBrowser) {
    return <InstallFirst lost={doorstep.lost} onInBrowser={() => setInBrowser(true)} />
  }
  const claim = async (code: string, name: string): Promise<void> => {
    await onClaim(code, name)
    setAnew(false)
  }
  return (
    <TypeCode
      lost={doorstep.lost}
      silent={silent}
      onClaim={claim}
      onInstall={doorstep.installed ? undefined : onInstall}
      onLetIn={onLetIn}
    />
  )
}

function Waiting({ check, onAgain }: { check: string; onAgain: () => void }): JSX.Element {
  return (
    <DoorPage title={door.waitingTitle} foot={<Key onPress={onAgain}>{door.waitingAgain}</Key>}>
      <p class="stage">{door.waitingDigits}</p>
      <p class="door-digits num" role="img" aria-label={door.waitingDigitsAre(check)}>
        {check.split('').map((digit, at) => (
          <span key={at}>{digit}</span>
        ))}
      </p>
      <p class="door-lead">{door.waiting}</p>
      <p role="status">{door.waitingOn}</p>
    </DoorPage>
  )
}

const REFUSALS: { readonly [code: string]: readonly [title: string, words: string] } = {
  refused: [door.refusedTitle, door.refused],
  refused_device: [door.refusedTitle, door.refused],
  wrong_code: [door.wrongTitle, door.wrong],
  used_code: [door.usedTitle, door.used],
  expired_code: [door.expiredTitle, door.expired],
  too_many_tries: [door.tooManyTitle, door.tooMany],
  revoked: [door.revokedTitle, door.revoked],
  revoked_device: [door.revokedTitle, door.revoked],
}

type RefusedProps = { view: Extract<PairingView, { at: 'refused' }>; onAgain: () => void }

function Refused({ view, onAgain }: RefusedProps): JSX.Element {
  const [title, words] = REFUSALS[view.code] ?? [door.otherTitle, view.message]
  return (
    <DoorPage
      title={title}
      mark="refused"
      words={words}
      foot={
        <Key tone="main" onPress={onAgain}>
          {door.anew}
        </Key>
      }
    />
  )
}

function lackOf(code: string, name: string): string {
  const strange = strangeLetters(code)
  if (code === '') return door.codeEmpty
  if (strange.length > 0) return door.codeLetters(strange.join(' '))
  if (code.length !== CODE_LENGTH) return door.codeShort(code.length)
  return name.trim() === '' ? door.nameEmpty : ''
}

type TypeCodeProps = {
  lost: boolean
  /** The code was sent and no answer came: it stays typed. */
  silent: boolean
  onClaim: (code: string, name: string) => Promise<void>
  onInstall: (() => void) | undefined
  onLetIn: (() => void) | undefined
}

function TypeCode({ lost, silent, onClaim, onInstall, onLetIn }: TypeCodeProps): JSX.Element {
  const [typed, setTyped] = useState('')
  const [name, setName] = useState('')
  const [says, setSays] = useState('')
  const [sending, setSending] = useState(false)
  const claim = async (): Promise<void> => {
    const lack = lackOf(cleanCode(typed), name)
    setSays(lack)
    if (lack !== '' || sending) return
    setSending(true)
    await onClaim(cleanCode(typed), name.trim())
    setSending(false)
  }
  return (
    <DoorPage
      title={lost ? door.lostTitle : door.title}
      words={lost ? door.lost : door.intro}
      foot={
        <>
          <Key tone="main" onPress={() => void claim()}>
            {sending ? door.sending : door.key}
          </Key>
          {onLetIn && <Key onPress={onLetIn}>{door.letIn}</Key>}
        </>
      }
    >
      <DoorField name={door.code} note={door.codeNote} value={shownCode(typed)} onType={setTyped} code />
      <DoorField name={door.name} note={door.nameNote} value={name} onType={setName} />
      <p role="alert" class="door-says">
        {says || (silent && !sending ? door.offline : '')}
      </p>
      {onInstall && (
        <>
          <p>{door.installOfferWhy}</p>
          <Key onPress={onInstall}>{door.installOffer}</Key>
        </>
      )}
    </DoorPage>
  )
}

type DoorFieldProps = {
  name: string
  note: string
  value: string
  onType: (typed: string) => void
  code?: boolean
}

function DoorField({ name, note, value, onType, code = false }: DoorFieldProps): JSX.Element {
  const id = useId()
  return (
    <div class="door-field">
      <label for={id}>{name}</label>
      <input
        id={id}
        class={code ? 'door-code' : ''}
        value={value}
        maxLength={code ? CODE_LENGTH + 4 : 80}
        autocomplete="off"
        autocapitalize={code ? 'characters' : 'sentences'}
        spellcheck={false}
        aria-describedby={`${id}-note`}
        onInput={(event) => onType(event.currentTarget.value)}
      />
      <p id={`${id}-note`} class="soft label">
        {note}
      </p>
    </div>
  )
}
