// Plays a heat run of the demo's removal on a fake phone: every step before it made, readings of its five sensors.
import type { Entry } from '../../src/core/entries.ts'
import type { DrawingMap, HeatRunAsk, MethodDoc, ZoneDoc } from '../../src/core/method.ts'
import { asksOf } from '../../src/core/views/answers.ts'
import { askOf, type Card, placeOf, type StepPlace } from '../../src/core/views/card.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import type { RunView } from '../../src/core/views/heat_view.ts'
import { sawOf } from '../../src/core/views/sign_view.ts'
import type { PlanRow } from '../../src/store/types.ts'
import { authorOf, OSKAR } from './fake_people.ts'
import { type FakePhone, fakePhone } from './fake_phone.ts'
import methods from './fixtures/frame_methods.json?raw'
import { cardNow, runNow, write } from './played.ts'

/** Removal and fitting, as the compiler makes them of what is shipped. */
export const METHODS = JSON.parse(methods) as readonly MethodDoc[]

export function zoneOf(id: string): ZoneDoc {
  const zone = METHODS.flatMap(({ zones }) => zones).find((one) => one.id === id)
  if (zone === undefined) throw new Error(`fixture: no zone ${id}`)
  return zone
}

/** Where the upper zone's pads and sensors might lie in a drawing. */
export const MAP: DrawingMap = {
  drawing: 'rear_frame',
  size: [358, 436],
  places: [],
  pads: [
    { zone: 'upper', id: 'U1', x: 40, y: 58, w: 150, h: 26 },
    { zone: 'upper', id: 'U2', x: 214, y: 58, w: 96, h: 34 },
  ],
  sensors: [
    { zone: 'upper', id: 'a', x: 115, y: 100 },
    { zone: 'upper', id: 'b', x: 202, y: 100 },
    { zone: 'upper', id: 'c', x: 316, y: 118 },
    { zone: 'upper', id: 'm', x: 262, y: 44 },
    { zone: 'upper', id: 'n', x: 150, y: 28 },
  ],
  zones: [],
}

type HeatOptions = {
  readonly mapped?: boolean
  readonly drawings?: Readonly<Record<string, string>>
  readonly plans?: readonly PlanRow[]
  readonly planSets?: Readonly<Record<string, string>>
}

/** A phone with both methods of the demo; not `mapped`: their drawings say nothing of pads and sensors. */
export function heatPhone({ mapped = true, ...kept }: HeatOptions = {}): FakePhone {
  const plain = METHODS.map((method) => ({ ...method, maps: [] }))
  return fakePhone({ methods: mapped ? METHODS : plain, ...kept })
}

export async function placeNow(fake: FakePhone, step: string): Promise<{ card: Card; place: StepPlace }> {
  const card = await cardNow(fake)
  const method = step.startsWith('fit') ? 'fitting' : 'removal'
  const place = placeOf(card, method, step)
  if (place === undefined) throw new Error(`fixture: no step ${step}`)
  return { card, place }
}

const SIGNER = '20000000-0000-4000-8000-000000000002'

/** All steps before this one done; those of its own stage with their answers, earlier ones by deviation. */
export async function playBefore(fake: FakePhone, step: string): Promise<void> {
  const { card, place } = await placeNow(fake, step)
  for (const one of card.steps.filter((other) => other.number < place.number)) {
    const own = one.stage.number === place.stage.number
    await (own ? makeStep(fake, one.step.id) : passBy(fake, one.step.id))
  }
}

async function passBy(fake: FakePhone, step: string): Promise<void> {
  const { card, place } = await placeNow(fake, step)
  const ref = drafts.refOf(place)
  if (!place.step.hold) return void (await write(fake, [drafts.tick(card, place, '')]))
  await write(fake, [drafts.deviation(ref, 'Done before this card was opened.', [], true)])
  const demand = place.step.hold_countersign
  const signer = { ...authorOf(OSKAR), as: [...authorOf(OSKAR).as, demand].sort() }
  if (demand !== '') fake.brought(await signed(fake, step, ''), signer, SIGNER)
  await write(fake, [drafts.tick((await placeNow(fake, step)).card, place, '')])
}

async function signed(fake: FakePhone, step: string, ask: string) {
  const { card, place } = await placeNow(fake, step)
  return drafts.countersign(place, ask, sawOf(card, place, ask))
}

/** Answers inside the limits, signs, and the step's own tick. */
export async function makeStep(
  fake: FakePhone,
  step: string,
  without: readonly string[] = [],
): Promise<void> {
  const { place } = await placeNow(fake, step)
  for (const ask of place.step.asks.filter((one) => !without.includes(one.id)))
    await answerOne(fake, step, ask.id)
  const { card } = await placeNow(fake, step)
  if (without.length === 0) await write(fake, [drafts.tick(card, place, '')])
}

async function answerOne(fake: FakePhone, step: string, id: string): Promise<void> {
  const { card, place } = await placeNow(fake, step)
  const view = asksOf(card, place).find((one) => one.ask.id === id)
  const ask = view?.ask
  switch (ask?.kind) {
    case 'tick':
      return void (await write(fake, [drafts.tick(card, place, id)]))
    case 'text':
      return void (await write(fake, [drafts.text(card, place, id, id === 'stays' ? 'Mara' : 'L-07')]))
    case 'reading': {
      const points = ask.points.length > 0 ? ask.points.map((one) => one.id) : ['']
      const value = ask.max === undefined ? (ask.min ?? 0) : ask.max - 2
      const made = points.map((point) => drafts.reading(card, place, ask, point, value))
      return void (await write(fake, made))
    }
    case 'countersign':
      fake.brought(await signed(fake, step, id), authorOf(OSKAR), SIGNER)
      return
    default:
      return
  }
}

export async function heatAskOf(
  fake: FakePhone,
  step: string,
): Promise<{ place: StepPlace; ask: HeatRunAsk }> {
  const { place } = await placeNow(fake, step)
  const ask = place.step.asks.find((one) => one.kind === 'heat_run')
  const found = ask && askOf(place, ask.id)
  if (found?.kind !== 'heat_run') throw new Error(`fixture: no heat run at ${step}`)
  return { place, ask: found }
}

/** Switched on at this step, by this phone or another; gives the run's hash. */
export async function switchOnAt(fake: FakePhone, step: string, device?: string): Promise<string> {
  const { place, ask } = await heatAskOf(fake, step)
  if (device !== undefined) return fake.brought(drafts.heatOn(place, ask), authorOf(OSKAR), device).hash
  const [entry] = await write(fake, [drafts.heatOn(place, ask)])
  return entry?.hash ?? ''
}

export type Begun = { fake: FakePhone; run: string; view: () => Promise<RunView> }

/** A run that this phone has just switched on. */
export async function begunAt(step: string, fake = heatPhone()): Promise<Begun> {
  const run = await switchOnAt(fake, step)
  return { fake, run, view: () => runNow(fake, run) }
}

const time = (minute: number, typed_time = false) => ({
  run_ms: Math.round(minute * 60_000),
  run_doubt: false,
  typed_time,
})

export type Values = Readonly<Record<string, number>>

export async function readAt(
  fake: FakePhone,
  run: string,
  minute: number,
  values: Values,
  step = 'rem-27',
): Promise<readonly Entry[]> {
  const { ask } = await heatAskOf(fake, step)
  const made = Object.entries(values).map(([sensor, value]) =>
    drafts.runReading(run, sensor, value, ask, time(minute)),
  )
  return write(fake, made)
}

export async function actAt(
  fake: FakePhone,
  run: string,
  minute: number,
  act: Parameters<typeof drafts.heatAct>[1],
  more: Parameters<typeof drafts.heatAct>[3] = {},
): Promise<readonly Entry[]> {
  return write(fake, [drafts.heatAct(run, act, time(minute), more)])
}

/** The usual run of the upper zone, minute by minute, as far as it is asked for. */
export const USUAL: readonly (readonly [minute: number, values: Values])[] = [
  [5, { a: 74, b: 61, c: 55, m: 92, n: 28 }],
  [10, { a: 112, b: 96, c: 84, m: 131, n: 36 }],
  [15, { a: 134, b: 117, c: 106, m: 152, n: 44 }],
  [20, { a: 147, b: 131, c: 121, m: 164, n: 51 }],
  [24, { a: 153, b: 138, c: 128, m: 170, n: 56 }],
  [29, { a: 156, b: 141, c: 131, m: 173, n: 60 }],
  [34, { a: 158, b: 143, c: 133, m: 175, n: 63 }],
  [39, { a: 159, b: 144, c: 134, m: 176, n: 65 }],
]

export async function usualTo(fake: FakePhone, run: string, minute: number): Promise<void> {
  for (const [at, values] of USUAL) if (at <= minute) await readAt(fake, run, at, values)
}

/** Lets time go on to this minute of the run. */
export function goTo(fake: FakePhone, run: string, minute: number): void {
  const on_ms = fake.entries().find((one) => one.entry.hash === run)?.entry.at_ms ?? 0
  fake.pass(minute * 60_000 - (fake.services.device.clock.now().at_ms - on_ms))
}
