// Hand-in and the office log.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { HandInTaken, LogLine } from '../../office_api/rows.ts'
import { count, listed, when } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { FileField, Form } from './forms.tsx'
import { useMinute } from './office_clock.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Empty, Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'
import { useAct } from './use_act.ts'

const LOG_EVERY_MS = 10_000

export function HandInScreen(): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const [file, setFile] = useState<File>()
  const [taken, setTaken] = useState<HandInTaken>()
  const submit = (): void => {
    setTaken(undefined)
    if (file === undefined) act.lack(o.handin.needFile)
    else void act.run((stop) => desk.api.handIn(file, stop), setTaken)
  }
  return (
    <>
      <Head title={o.handin.title} />
      <Form
        act={act}
        submit={o.handin.key}
        working={o.handin.working}
        label={o.handin.title}
        stoppable
        onSubmit={submit}
      >
        <p>{o.handin.intro}</p>
        <FileField name={o.handin.file} accept="" onPick={([picked]) => setFile(picked)} />
      </Form>
      <div role="status">{taken && <Taken taken={taken} />}</div>
    </>
  )
}

function Taken({ taken }: { taken: HandInTaken }): JSX.Element {
  const rows: readonly (readonly [number, string])[] = [
    [taken.taken, o.handin.taken],
    [taken.set_aside, o.handin.setAside],
    [taken.refused, o.handin.refused],
    [taken.known, o.handin.known],
    [taken.photos, o.handin.photos],
    ...(taken.pictures_refused > 0 ? [[taken.pictures_refused, o.handin.picturesRefused] as const] : []),
  ]
  return (
    <section class="o-part">
      <p>
        <strong>{o.handin.done}</strong> {taken.devices.length > 0 && o.handin.from(listed(taken.devices))}
      </p>
      <ul class="o-counts">
        {rows.map(([n, name]) => (
          <li key={name}>
            <span class="o-big num">{count(n)}</span> {name}
          </li>
        ))}
      </ul>
      <p>
        {taken.jobs.map((job, at) => (
          <a key={job} class="o-link" href={linkTo.job(job)}>
            {o.handin.toJob(at + 1)}
          </a>
        ))}
      </p>
    </section>
  )
}

export function LogScreen(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.log, LOG_EVERY_MS, 'log')
  return (
    <>
      <Head title={o.log.title} />
      <SeenPage seen={seen} refresh={refresh}>
        {(lines) =>
          lines.length === 0 ? (
            <Empty words={o.log.empty} next={o.log.emptyNext} />
          ) : (
            <LogTable lines={lines} />
          )
        }
      </SeenPage>
    </>
  )
}

function LogTable({ lines }: { lines: readonly LogLine[] }): JSX.Element {
  const now_ms = useMinute()
  return (
    <table class="o-table" aria-label={o.log.title}>
      <thead>
        <tr>
          <th scope="col">{o.log.at}</th>
          <th scope="col">{o.log.device}</th>
          <th scope="col">{o.log.job}</th>
          <th scope="col">{o.log.text}</th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr key={`${line.at_ms} ${line.text}`}>
            <td data-name={o.log.at}>{when(line.at_ms, now_ms)}</td>
            <td data-name={o.log.device}>{line.device}</td>
            <td data-name={o.log.job}>
              {line.job !== '' && <a href={linkTo.job(line.job)}>{line.order || o.log.job}</a>}
            </td>
            <td data-name={o.log.text}>{line.text}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
