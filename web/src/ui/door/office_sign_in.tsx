// Signing in at the office, each by name; wrong password, ended sign-in and a silent server are said.
import type { ComponentChildren, JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { Answer } from '../../office_api/answer.ts'
import type { DoorState } from '../../office_api/desk.ts'
import { Field, Form } from '../office/forms.tsx'
import { type Act, useAct } from '../office/use_act.ts'
import { w } from '../words/en.ts'
import { signIn } from '../words/sign_in_en.ts'

type SignInProps = {
  door: Exclude<DoorState, { at: 'in' }>
  onSignIn: (name: string, password: string) => Promise<Answer<unknown>>
  onLook: () => void
}

function Frame({ title, children }: { title: string; children: ComponentChildren }): JSX.Element {
  return (
    <div class="office o-door">
      <main class="o-door-leaf">
        <p class="o-name">{w.common.product}</p>
        <h1 tabIndex={-1}>{title}</h1>
        {children}
      </main>
    </div>
  )
}

export function OfficeSignIn({ door, onSignIn, onLook }: SignInProps): JSX.Element {
  if (door.at === 'looking') {
    return (
      <Frame title={signIn.title}>
        <p class="o-loading">{signIn.looking}</p>
      </Frame>
    )
  }
  if (door.at === 'silent') {
    return (
      <Frame title={signIn.silentTitle}>
        <p>{signIn.silent}</p>
        <div class="o-keys">
          <button type="button" class="key key-plain" onClick={onLook}>
            <span>{signIn.again}</span>
          </button>
        </div>
      </Frame>
    )
  }
  return (
    <Frame title={signIn.title}>
      <SignInForm onSignIn={onSignIn} />
      {door.demo && (
        <p class="o-note">
          {signIn.demo} <a href="/">{signIn.demoLink}</a>
        </p>
      )}
    </Frame>
  )
}

/** A refusal in our own words where we have them; the server's sentence else. */
function inOurWords(act: Act): Act {
  if (act.state.at !== 'refused') return act
  const { refusal } = act.state
  const words: { readonly [code: string]: string } = {
    wrong_password: signIn.wrong,
    too_many_tries: signIn.tooMany(refusal.retry_s),
  }
  const message = words[refusal.code] ?? refusal.message
  return { ...act, state: { at: 'refused', refusal: { ...refusal, message, field: '' } } }
}

export function SignInForm({ onSignIn }: Pick<SignInProps, 'onSignIn'>): JSX.Element {
  const act = useAct()
  const [name, setName] = useState('')
  const [password, setPassword] = useState('')
  const submit = (): void => {
    if (name.trim() === '') act.lack(signIn.needName)
    else if (password === '') act.lack(signIn.needPassword)
    else void act.run(() => onSignIn(name.trim(), password))
  }
  return (
    <Form
      act={inOurWords(act)}
      submit={signIn.key}
      working={signIn.working}
      label={signIn.title}
      onSubmit={submit}
    >
      <p>{signIn.intro}</p>
      <Field name={signIn.name} value={name} onType={setName} autocomplete="username" />
      <Field
        name={signIn.password}
        type="password"
        value={password}
        onType={setPassword}
        autocomplete="current-password"
      />
    </Form>
  )
}
