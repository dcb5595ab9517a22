// A method as it is read: stages, steps, what each asks for and waits for.
import type { ComponentChildren, JSX } from 'preact'
import { type Ask, type MethodDoc, type StepDoc, stepsOf } from '../../core/method.ts'
import { type Answer, mapAnswer } from '../../office_api/answer.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { ladder } from '../words/en_kinds.ts'
import { duration, grouped, listed, quantity } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { useOffice, useRoute } from './office_desk.ts'
import { Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'

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

const roleNames = (ids: readonly string[]): string => listed(ids.map((id) => w.common.roles[id] ?? id))

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
        <Fact name={words.who}>{roleNames(step.who)}</Fact>
        <Fact name={words.tools}>{listed(step.tools)}</Fact>
        <Fact name={words.needs}>{listed(step.needs.map((need) => needWords(method, need)))}</Fact>
        <Fact name={words.meanwhile}>{listed(step.meanwhile.map((id) => needWords(method, id)))}</Fact>
        <Fact name={words.sets}>{conditionNames(method, step.sets)}</Fact>
        <Fact name={words.clears}>{conditionNames(method, step.clears)}</Fact>
      </dl>
      {step.asks.length > 0 && (
        <ul class="o-plain" aria-label={words.asks}>
          {step.asks.map((ask) => (
            <li key={ask.id}>
              <strong>{ask.name}</strong>: {askWords(method, ask)}
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}

function Fact({ name, children }: { name: string; children: ComponentChildren }): JSX.Element | null {
  if (children === '') return null
  return (
    <>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </>
  )
}

function limitWords(ask: Extract<Ask, { kind: 'reading' }>): string {
  const say = (value: number): string => quantity(value, ask.decimals, ask.unit)
  if (ask.min !== undefined && ask.max !== undefined) return words.between(say(ask.min), say(ask.max))
  if (ask.min !== undefined) return words.atLeast(say(ask.min))
  return ask.max === undefined ? '' : words.atMost(say(ask.max))
}

function detailOf(method: MethodDoc, ask: Ask): readonly string[] {
  switch (ask.kind) {
    case 'choice':
      return ask.options.map((option) => (option.stop ? words.stops(option.name) : option.name))
    case 'reading':
      return [limitWords(ask), ...ask.points.map((point) => point.name)]
    case 'photo':
      return [ask.show, ask.deadline === '' ? '' : o.job.photos.before(ask.deadline)]
    case 'lot':
      return [method.materials.find((one) => one.id === ask.of)?.name ?? ask.of]
    case 'tally':
      return [method.groups.find((one) => one.id === ask.group)?.name ?? ask.group, words.to(ladder[ask.to])]
    case 'heat_run':
      return heatWords(method, ask)
    case 'countersign':
      return [words.by(w.common.roles[ask.of] ?? ask.of)]
    default:
      return []
  }
}

function heatWords(method: MethodDoc, ask: Extract<Ask, { kind: 'heat_run' }>): readonly string[] {
  const { sensors_unit: unit, decimals, lagging_min, leading_max, soak_s } = ask.settings
  const limits = words.soak(
    quantity(lagging_min, decimals, unit),
    quantity(leading_max, decimals, unit),
    duration(soak_s * 1000),
  )
  return [method.zones.find((zone) => zone.id === ask.zone)?.name ?? ask.zone, limits]
}

function askWords(method: MethodDoc, ask: Ask): string {
  return [words.ask[ask.kind], ...detailOf(method, ask)].filter((word) => word !== '').join(', ')
}
