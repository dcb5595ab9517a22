// The demo's front page: who is who, and a numbered path of five minutes through the three roles.
import { Fragment, type JSX } from 'preact'
import type { DemoDevice, DemoPlan } from '../../office_api/rows.ts'
import { Mark } from '../parts/mark.tsx'
import { demo, type PathStep } from '../words/demo_en.ts'
import { w } from '../words/en.ts'
import './front.css'

export function DemoFront({ plan }: { plan: DemoPlan }): JSX.Element {
  return (
    <div class="front">
      <header class="front-top">
        <span class="front-name num">{w.common.product}</span>
        <span>{w.common.invented}</span>
      </header>
      <main class="front-leaf">
        <h1>{demo.title}</h1>
        <p class="front-lead">{demo.what}</p>
        <p class="front-invented">
          <Mark name="caution" />
          <span>{demo.invented}</span>
        </p>
        <div class="front-columns">
          <Path plan={plan} />
          <div>
            <OfficeLogin plan={plan} />
            {plan.jobs.length > 1 && <Jobs plan={plan} />}
            <People plan={plan} />
            <Devices plan={plan} />
            <p class="soft">{demo.limits}</p>
          </div>
        </div>
      </main>
    </div>
  )
}

/** While the plan is not there: loading, or nobody answers. */
export function DemoWaiting({ silent, onAgain }: { silent: boolean; onAgain: () => void }): JSX.Element {
  return (
    <div class="front">
      <main class="front-leaf">
        <h1>{silent ? demo.silentTitle : w.common.product}</h1>
        <p role="status">{silent ? demo.silent : demo.loading}</p>
        {silent && (
          <button type="button" class="key key-plain" onClick={onAgain}>
            <span>{demo.again}</span>
          </button>
        )}
      </main>
    </div>
  )
}

function Path({ plan }: { plan: DemoPlan }): JSX.Element {
  return (
    <section aria-labelledby="path">
      <h2 id="path">{demo.pathTitle}</h2>
      <ol class="front-path">
        {demo.path(plan).map((step, at) => (
          <PathRow key={step.title} step={step} number={at + 1} plan={plan} />
        ))}
      </ol>
    </section>
  )
}

function PathRow({ step, number, plan }: { step: PathStep; number: number; plan: DemoPlan }): JSX.Element {
  return (
    <li>
      <span class="front-number num">{number}</span>
      <div>
        <h3>{step.title}</h3>
        {step.words.map((words) => (
          <p key={words}>{words}</p>
        ))}
        <div class="front-keys">
          {step.opens.map((id) => (
            <OpenKey key={id} id={id} plan={plan} main={number === 1} />
          ))}
        </div>
      </div>
    </li>
  )
}

function OpenKey({ id, plan, main }: { id: string; plan: DemoPlan; main: boolean }): JSX.Element | null {
  const device = plan.devices.find((one) => one.id === id)
  if (id !== 'office' && device === undefined) return null
  const url = device?.url ?? plan.office.url
  const name = device === undefined ? demo.openOffice : demo.openDevice(device)
  return (
    <a class={`key key-${main ? 'main' : 'plain'}`} href={url} target={`bayleaf-${id}`} title={demo.newTab}>
      <Mark name={device === undefined ? 'office' : 'phone'} />
      <span>{name}</span>
    </a>
  )
}

function OfficeLogin({ plan }: { plan: DemoPlan }): JSX.Element {
  return (
    <section aria-labelledby="login">
      <h2 id="login">{demo.office}</h2>
      <dl class="front-facts">
        <dt>{demo.officeName}</dt>
        <dd>{plan.office.name}</dd>
        <dt>{demo.password}</dt>
        <dd>
          <code>{plan.office.password}</code>
        </dd>
      </dl>
    </section>
  )
}

function Jobs({ plan }: { plan: DemoPlan }): JSX.Element {
  return (
    <section aria-labelledby="jobs">
      <h2 id="jobs">{demo.jobs}</h2>
      <dl class="front-facts">
        {plan.jobs.map(({ order, what }) => (
          <Fragment key={order}>
            <dt class="num">{order}</dt>
            <dd>{what}</dd>
          </Fragment>
        ))}
      </dl>
      <p class="soft">{demo.jobsNote}</p>
    </section>
  )
}

function People({ plan }: { plan: DemoPlan }): JSX.Element {
  return (
    <section aria-labelledby="people">
      <h2 id="people">{demo.people}</h2>
      <ul class="front-people">
        {plan.people.map((person) => (
          <li key={person.name}>
            <Mark name="person" />
            <div>
              <p>
                <strong>{person.name}</strong>, {person.role}
              </p>
              <p class="soft">{person.does}</p>
            </div>
            {person.pin !== '' && (
              <p class="front-pin">
                <small>{demo.pin}</small> <span class="num">{person.pin}</span>
              </p>
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}

function Devices({ plan }: { plan: DemoPlan }): JSX.Element {
  const fallbacks = plan.devices.map((device) => device.fallback_url).filter((url) => url !== '')
  return (
    <section aria-labelledby="phones">
      <h2 id="phones">{demo.devices}</h2>
      <p>{demo.devicesNote}</p>
      <ul class="front-devices">
        {plan.devices.map((device) => (
          <DeviceRow key={device.id} device={device} />
        ))}
      </ul>
      {fallbacks.length > 0 && <p class="soft">{demo.fallbackNote(fallbacks)}</p>}
    </section>
  )
}

function DeviceRow({ device }: { device: DemoDevice }): JSX.Element {
  return (
    <li>
      <Mark name="phone" />
      <div>
        <p>
          <strong>{device.name}</strong>, {device.person}
        </p>
        <p>
          <a href={device.url} target={`bayleaf-${device.id}`}>
            {device.url}
          </a>
        </p>
        {device.fallback_url !== '' && (
          <p class="soft">
            {demo.fallback}: <a href={device.fallback_url}>{device.fallback_url}</a>
          </p>
        )}
      </div>
    </li>
  )
}
