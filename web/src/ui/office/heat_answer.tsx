// A plan's answer: one sentence on top, what breaks a limit, where it leads and lags, and its figures.
import type { JSX } from 'preact'
import type { Json } from '../../core/canonical.ts'
import type { PlanAnswer, SpotAnswer } from '../../core/views/office_heat_answer.ts'
import { memberText } from '../../core/views/office_heat_fields.ts'
import { type Figure, figuresOf, type Input } from '../../core/views/office_heat_figures.ts'
import { Mark } from '../parts/mark.tsx'
import { fieldWords } from '../words/en_heat_form.ts'
import { amount, degrees, mm, planning, span } from '../words/en_heat_office.ts'
import { spots as spotWords, figures as words } from '../words/en_heat_plan.ts'
import { capital, grouped } from '../words/format.ts'

const DIGEST_SHOWN = 16

type AnswerProps = {
  answer: PlanAnswer
  /** Where a copy of the zone is changed. */
  change: string
}

/** Not feasible comes before everything, with the one change that mends it. */
export function HeatAnswer({ answer, change }: AnswerProps): JSX.Element {
  return (
    <section class={answer.feasible ? 'hz-answer' : 'hz-answer is-not'} aria-label={planning.title}>
      <p class="hz-sentence">
        {!answer.feasible && <Mark name="refused" />}
        <span>{answer.sentence}</span>
      </p>
      <p>
        <strong>{answer.first}</strong>
      </p>
      {!answer.feasible && (
        <div class="o-stack">
          <h2>{planning.troubles}</h2>
          <ul class="o-plain">
            {answer.troubles.map((trouble) => (
              <li key={trouble.code}>{capital(trouble.sentence)}.</li>
            ))}
          </ul>
          <p>
            {answer.mended_by === '' ? (
              planning.noMend
            ) : (
              <>
                {planning.mend} <strong>{answer.mended_by}</strong>.
              </>
            )}
          </p>
          <a class="key key-main" href={change}>
            <span>{planning.change}</span>
          </a>
        </div>
      )}
    </section>
  )
}

export function HeatSpots({ answer }: { answer: PlanAnswer }): JSX.Element {
  return (
    <dl class="o-facts">
      {(['leading', 'lagging'] as const).map((which) => (
        <Spot key={which} name={spotWords[which]} spot={answer[which]} put={putOf(answer, which)} />
      ))}
    </dl>
  )
}

/** Where the plan would have a sensor for a spot; a plan of an older program says nothing of it. */
const putOf = (answer: PlanAnswer, which: 'leading' | 'lagging'): string | undefined =>
  answer.sensor_places?.find((one) => one.spot === which)?.sentence

type SpotProps = { name: string; spot: SpotAnswer; put: string | undefined }

function Spot({ name, spot, put }: SpotProps): JSX.Element {
  const { nearest_sensor: sensor, sensor_away_mm: away, sensor_reads_more_by_K: more } = spot
  return (
    <>
      <dt>{name}</dt>
      <dd>
        {spotWords.place(mm(spot.x_mm), mm(spot.y_mm), degrees(10 * spot.T_C))}{' '}
        {sensor === undefined ? spotWords.noSensor : spotWords.sensor(sensor, mm(away ?? 0), more ?? 0)}
        {put !== undefined && ` ${capital(put)}.`}
      </dd>
    </>
  )
}

export function HeatFigures({ answer, document }: { answer: PlanAnswer; document: Json }): JSX.Element {
  return (
    <section aria-label={words.title}>
      <h2>{words.title}</h2>
      <ul class="hz-figures">
        {figuresOf(answer, document).map((figure) => (
          <FigureRow key={figure.id} figure={figure} answer={answer} />
        ))}
      </ul>
    </section>
  )
}

function FigureRow({ figure, answer }: { figure: Figure; answer: PlanAnswer }): JSX.Element {
  const { id, from, to, band, limit, over } = figure
  const said = to ? span(from, to) : amount(from)
  const name = words.name(id, answer.purpose)
  return (
    <li>
      <p class="hz-figure">
        <small>{name}</small>
        <strong class={over ? 'num in-stop' : 'num'}>{id === 'touch' ? words.touchFrom(said) : said}</strong>
        {band && <span>{bandWords(figure, band)}</span>}
        {limit && <span>{words.limit(amount(limit))}</span>}
        {over && limit && <span class="in-stop">{words.over}</span>}
      </p>
      <details class="o-details">
        <summary aria-label={words.inputsOf(name)}>{words.inputs}</summary>
        <Rests answer={answer} inputs={figure.inputs} hasBand={band !== undefined} />
      </details>
    </li>
  )
}

type Band = NonNullable<Figure['band']>

/** What runs from one moment to another has a band at its beginning, and may have one at its end. */
function bandWords({ to, toBand }: Figure, band: Band): string {
  if (toBand) return words.bandEnds(span(...band), span(...toBand))
  return to ? words.bandBegins(span(...band)) : words.band(span(...band))
}

type RestsProps = { answer: PlanAnswer; inputs: readonly Input[]; hasBand: boolean }

function Rests({ answer, inputs, hasBand }: RestsProps): JSX.Element {
  const times = ([low, high]: readonly [number, number]): string => words.times(low, high)
  return (
    <div class="hz-rests">
      <p>
        {hasBand
          ? words.bandOf(times(answer.band.contact_factor), times(answer.band.loss_factor))
          : words.noBand}
      </p>
      <p>{words.model(answer.model)}</p>
      <dl class="o-facts">
        {inputs.map((input) => (
          <InputRow key={`${input.of} ${input.key}`} input={input} />
        ))}
        <dt>{words.digest}</dt>
        <dd class="o-hex">{grouped(answer.digest.slice(0, DIGEST_SHOWN))}</dd>
      </dl>
      <p>{answer.first}</p>
    </div>
  )
}

function InputRow({ input: { of, key, said } }: { input: Input }): JSX.Element {
  const unit = fieldWords.unit(key)
  const whose = of === '' ? '' : `${fieldWords.name(of)}: `
  return (
    <>
      <dt>
        {whose}
        {of === '' ? fieldWords.name(key) : fieldWords.name(key).toLowerCase()}
      </dt>
      <dd>
        {memberText(Array.isArray(said) ? 'heat' : 'number', said)} {unit}
      </dd>
    </>
  )
}
