// Scenes of the office's heat pages: a desk whose server is a table of answers, all of them invented.
import type { JSX } from 'preact'
import type { Json } from '../../../src/core/canonical.ts'
import type { PlanAnswer } from '../../../src/core/views/office_heat_answer.ts'
import type { FieldFile } from '../../../src/core/views/office_heat_field.ts'
import { openDesk } from '../../../src/office_api/desk.ts'
import type { Beat } from '../../../src/office_api/feed.ts'
import { OfficeApp } from '../../../src/ui/office/office_app.tsx'
import { openPlaces } from '../../../src/ui/office/place.ts'
import small_text from '../fixtures/heat_small_circuit.json?raw'
import upper_text from '../fixtures/heat_upper.json?raw'

type Planned = { readonly document: Json; readonly answer: PlanAnswer }
const upper = JSON.parse(upper_text) as Planned & { readonly field: FieldFile }
const small = JSON.parse(small_text) as Planned

const NOON = Date.UTC(2026, 2, 3, 12)
const DIGEST = upper.answer.digest
const SMALL = small.answer.digest
const ADA = '00000000-0000-4000-8000-0000000000a1'

type Told = { readonly [path: string]: unknown }
type Scene = { readonly path: string; readonly told: Told; readonly silent?: boolean }

const stillBeat: Beat = { now: () => NOON, after: () => () => {}, isSeen: () => true, onSeen: () => () => {} }

const row = (
  digest: string,
  name: string,
  state: string,
  sentence: string,
  jobs: readonly string[] = [],
) => ({
  digest,
  id: name.split(' ')[0],
  name,
  invented: true,
  added_ms: NOON,
  by: ADA,
  state,
  sentence,
  jobs,
})
const news = (state: string, more: object = {}) => ({
  state,
  doing: '',
  share: 0,
  sentence: state === 'done' ? upper.answer.sentence : '',
  current: true,
  ...more,
})
const zone = (plan: object, document: Json = upper.document, digest = DIGEST): Told => ({
  [`/api/heat/zones/${digest}`]: { digest, text: '', document, remarks: [], plan },
  [`/api/heat/plans/${digest}`]: { ...plan, faults: [] },
})
const METHOD = {
  digest: 'm'.repeat(64),
  id: 'removal',
  title: 'Take off the rear frame half',
  revision: 'demo 1',
}
const JOB = { job: 'demo-2', order: 'DEMO-2', part: 'Rear frame half', filed: false, methods: [METHOD] }
const ZONES = [
  { id: 'upper', name: 'Upper joint', pads: [], sensors: [] },
  { id: 'post', name: 'Post joint', pads: [], sensors: [] },
]

const RUNS = ZONES.map((one) => ({ kind: 'heat_run', id: one.id, name: one.name, zone: one.id }))
const STAGES = [{ id: 'part', title: 'Part', steps: [{ id: 'rem-27', title: 'Heat', asks: RUNS }] }]

const ALWAYS: Told = {
  '/api/me': { office: { person: ADA, name: 'Ada Kern' }, demo: true, now_ms: NOON },
  '/api/people': { people: [{ person: ADA, name: 'Ada Kern', roles: ['office'], qualifications: [] }] },
  '/api/devices': { devices: [] },
  '/api/jobs': { now_ms: NOON, late: [], jobs: [JOB] },
  [`/api/methods/${METHOD.digest}`]: { form: 1, ...METHOD, stages: STAGES, zones: ZONES },
}
const ROWS = [
  row(DIGEST, 'upper joint', 'done', upper.answer.sentence, ['demo-2']),
  row(SMALL, 'upper joint on a small circuit', 'done', small.answer.sentence),
  row('c'.repeat(64), 'post joint', 'running', ''),
  row('d'.repeat(64), 'post joint, thicker bond', 'cancelled', ''),
  row('e'.repeat(64), 'header seam', 'none', ''),
]
const DONE: Told = {
  ...zone(news('done')),
  [`/api/heat/plans/${DIGEST}`]: { ...news('done'), answer: upper.answer, faults: [] },
  [`/api/heat/plans/${DIGEST}/field`]: upper.field,
}
const AT = `/office/heat/${DIGEST}`

const SCENES: { readonly [name: string]: Scene } = {
  office_heat: { path: '/office/heat', told: { '/api/heat/zones': { zones: ROWS } } },
  office_heat_empty: { path: '/office/heat', told: { '/api/heat/zones': { zones: [] } } },
  office_heat_offline: { path: '/office/heat', told: {}, silent: true },
  office_heat_refused: { path: AT, told: {} },
  office_heat_plan: { path: AT, told: DONE },
  office_heat_pin: { path: AT, told: DONE },
  office_heat_unplanned: { path: AT, told: zone(news('none')) },
  office_heat_waiting: { path: AT, told: zone(news('waiting')) },
  office_heat_planning: { path: AT, told: zone(news('running', { doing: 'family', share: 0.72 })) },
  office_heat_cancelled: { path: AT, told: zone(news('cancelled')) },
  office_heat_failed: {
    path: AT,
    told: {
      ...zone(news('failed')),
      [`/api/heat/plans/${DIGEST}`]: {
        ...news('failed'),
        faults: [{ field: '', mend: 'The planner used more memory than it may. Make the zone smaller.' }],
      },
    },
  },
  office_heat_older: {
    path: AT,
    told: {
      ...DONE,
      [`/api/heat/zones/${DIGEST}`]: {
        digest: DIGEST,
        text: '',
        document: upper.document,
        remarks: ['pads[0].capacity_J_m2K is left out: 4000 J/m2K is taken.'],
        plan: news('done', { current: false }),
      },
    },
  },
  office_heat_not_feasible: {
    path: `/office/heat/${SMALL}`,
    told: {
      ...zone(news('done'), small.document, SMALL),
      [`/api/heat/plans/${SMALL}`]: { ...news('done'), answer: small.answer, faults: [] },
      [`/api/heat/plans/${SMALL}/field`]: upper.field,
    },
  },
  office_heat_change: { path: `${AT}/change`, told: DONE },
  office_heat_new: { path: '/office/heat/new', told: {} },
}

/** A server that answers from a table, refuses what is not in it, or is not there. */
function answering({ told, silent = false }: Scene): typeof fetch {
  const all: Told = { ...ALWAYS, ...told }
  return async (url) => {
    const { pathname } = new URL(String(url), location.origin)
    const unheard = silent && pathname.startsWith('/api/heat')
    if (unheard) throw new TypeError('nobody answers')
    const found = all[pathname]
    const refusal = { code: 'unknown_zone', message: 'No heat zone here has this digest.', field: 'digest' }
    return Response.json(found ?? refusal, { status: found === undefined ? 404 : 200 })
  }
}

async function drawn(scene: Scene): Promise<JSX.Element> {
  await Promise.all([
    import('../../../src/ui/office/office.css'),
    import('../../../src/ui/office/office_forms.css'),
    import('../../../src/ui/office/office_job.css'),
    import('../../../src/ui/office/office_shelf.css'),
  ])
  history.replaceState(null, '', scene.path)
  return <OfficeApp desk={openDesk(answering(scene), stillBeat)} places={openPlaces(window)} />
}

export const OFFICE_HEAT_SCENES: Readonly<Record<string, () => Promise<JSX.Element>>> = Object.fromEntries(
  Object.entries(SCENES).map(([name, scene]) => [name, () => drawn(scene)]),
)

/** The keys that are pressed once a scene stands. */
export const OFFICE_HEAT_KEYS: { readonly [name: string]: readonly string[] } = {
  office_heat_pin: ['Pin to a job'],
}
