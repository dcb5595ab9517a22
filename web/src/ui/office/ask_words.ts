// What an ask of a method asks for, in words: the kind, then what it holds to.
import {
  type AnswerRef,
  type Ask,
  type ComputeAsk,
  type HeatRunAsk,
  type MethodDoc,
  partsOf,
  type ReadingAsk,
  type StepDoc,
  stepsOf,
} from '../../core/method.ts'
import { w } from '../words/en.ts'
import { ladder } from '../words/en_kinds.ts'
import { duration, listed, quantity } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { reading as more } from '../words/office_en_methods.ts'

const words = o.methods

export function askWords(method: MethodDoc, step: StepDoc, ask: Ask): string {
  return [words.ask[ask.kind], ...detailOf(method, ask), whenWords(step, ask)]
    .filter((word) => word !== '')
    .join(', ')
}

function whenWords(step: StepDoc, ask: Ask): string {
  const { when } = ask
  if (when === undefined) return ''
  const choice = step.asks.find((one) => one.id === when.ask)
  const option = choice?.kind === 'choice' ? choice.options.find((one) => one.id === when.option) : undefined
  return more.when(choice?.name ?? when.ask, option?.name ?? when.option)
}

function detailOf(method: MethodDoc, ask: Ask): readonly string[] {
  switch (ask.kind) {
    case 'choice':
      return ask.options.map((option) => (option.stop ? words.stops(option.name) : option.name))
    case 'reading':
      return readingWords(method, ask)
    case 'photo':
      return [
        ask.show,
        ask.deadline === '' ? '' : o.job.photos.before(ask.deadline),
        ask.framing ? more.framing(ask.framing) : '',
      ]
    case 'lot':
      return [method.materials.find((one) => one.id === ask.of)?.name ?? ask.of]
    case 'tally':
      return [method.groups.find((one) => one.id === ask.group)?.name ?? ask.group, words.to(ladder[ask.to])]
    case 'heat_run':
      return heatWords(method, ask)
    case 'countersign':
      return [
        words.by(w.common.roles[ask.of] ?? ask.of.replaceAll('_', ' ')),
        ask.at_the_car ? more.atTheCar : '',
        ask.other_device ? more.otherDevice : '',
      ]
    case 'compute':
      return computeWords(ask)
    case 'text':
      return ask.of === 'instrument' ? [more.calibrated] : []
    default:
      return []
  }
}

function readingWords(method: MethodDoc, ask: ReadingAsk): readonly string[] {
  const say = (value: number): string => quantity(value, ask.decimals, ask.unit)
  const { plausible, against, since, points } = ask
  return [
    limitWords(ask) || ask.unit,
    plausible === undefined ? '' : more.plausible(say(plausible[0]), say(plausible[1])),
    against === undefined ? '' : more.against(answerName(method, against)),
    since === undefined ? '' : more.since(answerName(method, since)),
    points.length === 0 ? '' : more.points(listed(points.map((point) => point.name))),
    ask.where_needed ? more.whereNeeded : '',
  ]
}

function limitWords(ask: ReadingAsk): string {
  const say = (value: number): string => quantity(value, ask.decimals, ask.unit)
  if (ask.min !== undefined && ask.max !== undefined) return words.between(say(ask.min), say(ask.max))
  if (ask.min !== undefined) return words.atLeast(say(ask.min))
  return ask.max === undefined ? '' : words.atMost(say(ask.max))
}

/** An answer by the names of its step and ask; of another method, by its ids. */
function answerName(method: MethodDoc, of: AnswerRef): string {
  const step = of.method === method.id ? stepsOf(method).find((one) => one.id === of.step) : undefined
  const ask = step?.asks.find((one) => one.id === of.ask)
  return step && ask ? `${ask.name} (${step.title})` : `${of.step}.${of.ask}`
}

function heatWords(method: MethodDoc, ask: HeatRunAsk): readonly string[] {
  const { sensors_unit: unit, decimals, lagging_min, leading_max, soak_s } = ask.settings
  const limits = words.soak(
    quantity(lagging_min, decimals, unit),
    quantity(leading_max, decimals, unit),
    duration(soak_s * 1000),
  )
  const parts = ask.parts === undefined ? '' : more.parts(partsOf(ask).join(', ').replaceAll('_', '-'))
  return [method.zones.find((zone) => zone.id === ask.zone)?.name ?? ask.zone, parts, limits]
}

function computeWords(ask: ComputeAsk): readonly string[] {
  const inputs = (ask.inputs ?? []).map((one) => one.name.replaceAll('_', ' '))
  return [ask.computation.replaceAll('_', ' '), inputs.length === 0 ? '' : more.inputs(listed(inputs))]
}
