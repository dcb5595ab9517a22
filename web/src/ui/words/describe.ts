// An entry in words: what it is and what it says, as lists, time lines and strikes print it.
import { type Entry, isHeatOn, isRunReading, isTallyMark } from '../../core/entries.ts'
import { type Card, placeOf } from '../../core/views/card.ts'
import { w } from './en.ts'
import { heatWords } from './en_heat.ts'
import { kinds, ladder, marks, pieces } from './en_kinds.ts'
import { capital, quantity, scaled, unitName } from './format.ts'
import { lotLine, optionName } from './names.ts'

type Of<K extends Entry['kind']> = Extract<Entry, { kind: K }>

/** The name of an ask, with its point where it has one. */
function askName(card: Card, ref: { method: string; step: string }, ask: string, point = ''): string {
  const place = placeOf(card, ref.method, ref.step)
  const found = place?.step.asks.find((one) => one.id === ask)
  if (found === undefined) return place?.step.title ?? ''
  const name = found.kind === 'reading' ? found.points.find((one) => one.id === point)?.name : undefined
  return capital(name === undefined ? found.name : `${found.name}, ${name}`)
}

/** The step that an entry is about: 'Step 4'; empty where it is about none. */
export function stepWord(card: Card, entry: Entry): string {
  const body = entry.body as { readonly method?: string; readonly step?: string; readonly run?: string }
  const run = card.state.runs.find((one) => one.run === (body.run ?? entry.hash))
  const place = placeOf(card, body.method ?? run?.method ?? '', body.step ?? run?.step ?? '')
  return place === undefined ? '' : w.card.step(place.number)
}

/** One line: 'Gap at the post, G2: 3.5 mm'. */
export function describe(card: Card, entry: Entry): string {
  switch (entry.kind) {
    case 'tick':
      return tickLine(card, entry)
    case 'text':
      return `${askName(card, entry.body, entry.body.ask)}: ${entry.body.value}`
    case 'choice':
      return `${askName(card, entry.body, entry.body.ask)}: ${optionName(card, entry)}`
    case 'reading':
      return readingLine(card, entry)
    case 'photo':
      return photoLine(card, entry)
    case 'tally':
      return tallyLine(entry)
    case 'lot':
      return lotLine(card, entry)
    case 'heat':
      return heatLine(card, entry)
    case 'note':
    case 'deviation':
      return `${capital(kinds[entry.kind])}: ${entry.body.text}`
    case 'countersign':
      return `${capital(kinds.countersign)}: ${askName(card, entry.body, entry.body.ask)}`
    case 'result':
      return `${askName(card, entry.body, entry.body.ask)}: ${w.card.verdict[entry.body.verdict]}`
    case 'later':
      return `${capital(kinds.later)}: ${entry.body.reason}`
    case 'condition':
      return conditionLine(card, entry)
    case 'strike':
      return `${capital(kinds.strike)}: ${entry.body.reason}`
    default:
      return capital(kinds[entry.kind] ?? entry.kind)
  }
}

function conditionLine(card: Card, { body }: Of<'condition'>): string {
  const docs = card.steps.flatMap((place) => place.method.conditions)
  const name = docs.find((one) => one.id === body.condition)?.name ?? body.condition
  return `${capital(name)}: ${body.holds ? w.states.stillSo : w.states.changed}`
}

function tickLine(card: Card, { body }: Of<'tick'>): string {
  const name = askName(card, body, body.ask)
  return body.value === 'done'
    ? `${name}: ${w.states.done}`
    : `${name}: ${w.states.not_applicable}, ${body.reason}`
}

function readingLine(card: Card, { body }: Of<'reading'>): string {
  if (!isRunReading(body)) {
    return `${askName(card, body, body.ask, body.point)}: ${quantity(body.value, body.decimals, body.unit)}`
  }
  const values = body.points.map(([, value]) => scaled(value, body.decimals)).join(', ')
  return `${capital(heatWords.sensorName(body.sensor))}: ${values} ${unitName(body.unit)}`
}

function photoLine(card: Card, { body }: Of<'photo'>): string {
  const slot = body.slot === '' ? body.caption : askName(card, body, body.slot)
  return `${capital(kinds.photo)}: ${slot || w.card.slot.loose}`
}

function tallyLine({ body }: Of<'tally'>): string {
  if (!isTallyMark(body)) return `${body.position}: ${ladder[body.state]}`
  const piece = body.piece === '' ? '' : `${pieces[body.piece]} `
  return `${body.position}: ${piece}${marks[body.mark]}`
}

function heatLine(card: Card, { body }: Of<'heat'>): string {
  if (isHeatOn(body)) return `${heatWords.acts.on}: ${askName(card, body, body.ask)}`
  if (body.act === 'turn_down' || body.act === 'lift')
    return [heatWords.padAct[body.act](body.pad), body.text].filter((one) => one !== '').join(' ')
  const said = body.pad === '' ? body.text : `${body.text} (${body.pad})`
  return body.text === '' ? heatWords.acts[body.act] : `${heatWords.acts[body.act]}: ${said}`
}
