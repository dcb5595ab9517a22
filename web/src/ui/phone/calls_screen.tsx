// What calls this phone while the app is closed: chosen by switches, said with its reason where it is not armed.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { Calls, CallsView, Wanted } from '../../sync/calls.ts'
import { Key } from '../parts/key.tsx'
import { Caution, Leaf } from '../parts/leaf.tsx'
import { callWords as words } from '../words/en_calls.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { paths } from './router.ts'

const SWITCHES = ['runs', 'signs'] as const

export function CallsScreen(): JSX.Element {
  const calls = useCalls()
  const { services } = usePhone()
  const meanwhile = services.calls === undefined ? words.reach.not_available : words.at.unknown
  return (
    <Frame act="calls" what={words.title} back={paths.self}>
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {words.title}
        </h1>
        <p>{words.intro}</p>
        {calls === undefined ? <p role="status">{meanwhile}</p> : <Chosen calls={calls} />}
        <Caution>{words.notAlarm}</Caution>
      </Leaf>
    </Frame>
  )
}

/** Undefined until it is there, and where this app was put together without it. */
function useCalls(): Calls | undefined {
  const { services } = usePhone()
  const [calls, found] = useState<Calls>()
  useEffect(() => {
    void services.calls?.().then((one) => {
      found(one)
      void one.look()
    })
  }, [services])
  return calls
}

function Chosen({ calls }: { calls: Calls }): JSX.Element {
  const [busy, setBusy] = useState(false)
  const view = calls.view.value
  const reach = calls.reach()
  const can = reach === 'yes' && !busy && view.at !== 'unknown' && view.at !== 'offline'
  const run = (act: () => Promise<void>): void => {
    if (!can) return
    setBusy(true)
    void act().finally(() => setBusy(false))
  }
  const turn = (what: keyof Wanted) => run(() => calls.want({ ...view.wanted, [what]: !isOn(view, what) }))
  return (
    <>
      <p role="status">
        <strong>{reach === 'yes' ? words.at[view.at] : words.reach[reach]}</strong>
      </p>
      <div class="keys">
        {SWITCHES.map((what) => (
          <Key
            key={what}
            waiting={!can}
            pressed={isOn(view, what)}
            small={words[`${what}Small`](isOn(view, what))}
            onPress={() => turn(what)}
          >
            {words[what]}
          </Key>
        ))}
        {view.at === 'armed' && <Key onPress={() => run(calls.rehearse)}>{words.rehearse}</Key>}
      </div>
      <Met view={view} />
    </>
  )
}

/** A switch shows what is armed here, not what the office remembers of a browser that forgot. */
function isOn({ at, wanted }: CallsView, what: keyof Wanted): boolean {
  return (at === 'armed' || at === 'contact') && wanted[what]
}

function Met({ view }: { view: CallsView }): JSX.Element {
  const { met, trouble } = view
  return (
    <>
      {met !== '' && <p role="status">{metWords(met)}</p>}
      {trouble !== '' && (
        <p class="in-stop">
          {words.trouble}: {trouble}
        </p>
      )}
    </>
  )
}

function metWords(met: Exclude<CallsView['met'], ''>): string {
  if (typeof met === 'object') return met.message
  return met === 'called' ? words.called : words.met[met]
}
