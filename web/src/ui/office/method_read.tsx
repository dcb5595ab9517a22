// A method as it is read: stages, steps, what each asks for and waits for.
import type { JSX } from 'preact'
import { type MethodDoc, type StepDoc, stepsOf } from '../../core/method.ts'
import { type Answer, mapAnswer } from '../../office_api/answer.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { grouped, listed } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { reading as more } from '../words/office_en_methods.ts'
import { askWords } from './ask_words.ts'
import { Fact } from './fact.tsx'
import { MethodAbout } from './method_about.tsx'
import { MethodCompare } from './method_compare.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Head, SeenPage } from './page_parts.tsx'
import { Papers } from './papers.tsx'
import { linkTo } from './place.ts'
import './office_methods.css'

const words = o.methods

export function MethodScreen({ digest }: { digest: string }): JSX.Element {
  const { desk } = useOffice()
  const load = async (): Promise<Answer<MethodDoc>> =>
    mapAnswer(await desk.api.methodText(digest), (text) => JSON.parse(text) as MethodDoc)
  const { seen, refresh } = useRoute(load, 0, digest)
  return (
    <>
      <p>
        <a href={linkTo.methods}>{words.all}</a>
      </p>
      <SeenPage seen={seen} refresh={refresh}>
        {(method) => <Method method={method} digest={digest} />}
      </SeenPage>
    </>
  )
}

function Method({ method, digest }: { method: MethodDoc; digest: string }): JSX.Element {
  const numbers = new Map(stepsOf(method).map((step, at) => [step.id, at + 1]))
  return (
    <article class="o-method">
      <Head title={o.board.method(method.title, method.revision)} />
      <p class="o-note">
        {method.invented && `${words.invented} · `}
        {words.digest} <span class="o-hex">{grouped(digest)}</span>
      </p>
      <MethodAbout method={method} digest={digest} />
      <MethodCompare method={method} digest={digest} />
      <Papers methods={[method.id]} />
      {method.stages.map((stage, at) => (
        <section key={stage.id}>
          <h2>{words.stage(at + 1, stage.title)}</h2>
          {stage.steps.map((step) => (
            <Step key={step.id} step={step} number={numbers.get(step.id) ?? 0} method={method} />
          ))}
        </section>
      ))}
    </article>
  )
}

const roleNames = (ids: readonly string[]): string =>
  listed(ids.map((id) => w.common.roles[id] ?? id.replaceAll('_', ' ')))

function needWords(method: MethodDoc, need: string): string {
  const [id = '', moment] = need.split('@')
  const title = stepsOf(method).find((step) => step.id === id)?.title ?? id
  return moment === undefined ? title : o.job.steps.moment(title, o.what.moment(moment))
}

function conditionNames(method: MethodDoc, ids: readonly string[]): string {
  return listed(ids.map((id) => method.conditions.find((one) => one.id === id)?.name ?? id))
}

type StepProps = { step: StepDoc; number: number; method: MethodDoc }

function Step({ step, number, method }: StepProps): JSX.Element {
  return (
    <section class="o-method-step" aria-label={`${number} ${step.title}`}>
      <h3>
        {step.hold && (
          <span class="in-stop">
            <Mark name="held" />
          </span>
        )}
        <span>
          <span class="num">{number}</span> {step.title}
          {step.hold && <small class="o-inline in-stop"> · {words.hold}</small>}
        </span>
      </h3>
      {step.caution !== '' && <p class="o-caution">{step.caution}</p>}
      {step.instruction !== '' && <p>{step.instruction}</p>}
      <dl class="o-facts">
        <Fact name={words.who}>
          {[
            roleNames(step.who),
            step.people > 1 ? more.people(step.people) : '',
            step.minutes === undefined ? '' : more.minutes(step.minutes),
          ]
            .filter(Boolean)
            .join(', ')}
        </Fact>
        <Fact name={words.tools}>{listed(step.tools)}</Fact>
        <Fact name={words.needs}>{listed(step.needs.map((need) => needWords(method, need)))}</Fact>
        <Fact name={words.meanwhile}>{listed(step.meanwhile.map((id) => needWords(method, id)))}</Fact>
        <Fact name={words.sets}>{conditionNames(method, step.sets)}</Fact>
        <Fact name={words.clears}>{conditionNames(method, step.clears)}</Fact>
      </dl>
      {step.hold_countersign !== '' && <p class="soft">{more.holdBy(roleNames([step.hold_countersign]))}</p>}
      {step.asks.length > 0 && (
        <ul class="o-plain" aria-label={words.asks}>
          {step.asks.map((ask) => (
            <li key={ask.id}>
              <strong>{ask.name}</strong>: {askWords(method, step, ask)}
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
