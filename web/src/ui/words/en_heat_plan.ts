// Words of a heat plan: figures, spots, the picture over time, curves, tables.

import { minutes, SPACE } from './en_heat_office.ts'
import { count, listed } from './format.ts'

const figureNames = {
  workable: 'Coldest place workable',
  soak: 'Soak',
  release: 'Release',
  window: 'Wedging, end to end',
  bond_peak: 'Hottest bondline',
  metal_peak: 'Hottest metal',
  ramp: 'Steepest rise',
  cooling: 'Steepest fall',
  touch: 'Metal safe to touch for 1 s',
  current: 'Current',
  energy: 'Energy',
} as const

export const figures = {
  title: 'Figures',
  name: (id: keyof typeof figureNames, purpose: string) =>
    id === 'workable' && purpose === 'cure' ? 'Coldest place at its minimum' : figureNames[id],
  touchFrom: (said: string) => `from ${said}`,
  band: (said: string) => `band ${said}`,
  bandBegins: (said: string) => `begins within ${said}`,
  bandEnds: (from: string, to: string) => `begins within ${from}, ends within ${to}`,
  limit: (said: string) => `limit ${said}`,
  over: 'over its limit',
  inputs: 'Inputs and band',
  inputsOf: (name: string) => `Inputs and band of: ${name}`,
  noBand: 'This figure has no band of its own.',
  bandOf: (contact: string, loss: string) =>
    `Band: contact ${contact} and loss ${loss} times what the zone says.`,
  model: (model: string) => `Model: ${model}.`,
  digest: 'Zone document',
  times: (low: number, high: number) => `${low} to ${high}`,
}

export const spots = {
  leading: 'Leads',
  lagging: 'Lags',
  place: (x: string, y: string, T: string) =>
    `${x} along, ${y} across: ${T} when the coldest place is workable.`,
  sensor: (id: string, away: string, more: number) =>
    `Sensor ${id} is ${away} away and reads ${Math.abs(Math.round(more))}${SPACE}K ${more < 0 ? 'less' : 'more'}.`,
  noSensor: 'No sensor is on this layer.',
}

export const picture = {
  title: 'Temperature over time',
  joint: 'The joint, to scale',
  heatedSide: 'Seen from the heated side. Lengths in mm from the zone’s lower left corner.',
  layer: 'Layer',
  time: 'Time after switch-on',
  play: 'Play',
  pause: 'Pause',
  at: (min: number) =>
    `${count(Math.floor(min))}${SPACE}min${min % 1 ? ` ${Math.round((min % 1) * 60)}${SPACE}s` : ''} after switch-on`,
  legend: (low: string, high: string) => `Colours from ${low} to ${high}, one scale for all layers and times`,
  label: (layer: string, at: string, low: string, high: string) => `${layer}, ${at}: from ${low} to ${high}`,
  range: (low: string, high: string, x: string, y: string) =>
    `From ${low} to ${high}; hottest at ${x} along, ${y} across.`,
  workable: (T: string, purpose: string) =>
    `Solid line: ${purpose === 'cure' ? 'minimum' : 'workable'}, ${T}`,
  limit: (T: string) => `Dashed line: the layer’s limit, ${T}`,
  sensors: 'Sensors now',
  loading: 'Asking the office for the picture.',
  signs: 'Signs',
  sign: {
    bond: 'sensor on the bondline',
    metal: 'sensor elsewhere',
    neighbour: 'neighbour with a limit',
    leads: 'hottest bondline',
    lags: 'coldest bondline',
  },
}

export const curves = {
  title: 'Curves and release',
  chart: 'The chart',
  label: 'Planned temperatures against time, with limits, and each pad’s share of its power',
  coldest: 'coldest bondline',
  hottest: 'hottest bondline',
  metal: 'hottest metal',
  sensors: 'sensors, lettered',
  band: 'coldest bondline over the band',
  limits: { workable: 'workable', maximum: 'bond’s maximum', metal: 'metal’s limit' },
  minimum: 'minimum',
  releaseBegins: 'release begins',
  table: 'The same as a table',
  at: 'At',
}

type Earlier = readonly { readonly zone: string; readonly minutes: number }[]

/** Whose runs beside this zone the earlier minutes came from. */
const besideWords = (zones: Earlier): string =>
  zones.length === 0 ? '' : `, ${listed(zones.map((one) => `${minutes(one.minutes)} of ${one.zone}`))}`

export const tables = {
  layers: 'Layers',
  limit: 'Limit',
  above: 'Minutes above',
  aboveLine: (limit: string, total: string, earlier: number, zones: Earlier = []) =>
    `${limit}: ${total}${earlier > 0 ? ` (${minutes(earlier)} of it in earlier runs${besideWords(zones)})` : ''}`,
  at: (x: string, y: string, when: string) => `${x} along, ${y} across, after ${when}`,
  ageing: (share: string, stronger: string) =>
    `Ageing of aluminium, an estimate: ${share} of the time after which 6061 and 6063 T6 fell under their minimum strength; ${stronger} for stronger alloys.`,
  source: (said: string) => `Source: ${said}.`,
  neighbours: 'Neighbours',
  hotSide: 'hot side of the band',
  passes: 'passes',
  fails: 'over its limit',
  failsHot: 'over its limit on the hot side of the band',
  farther: (said: string) => `passes ${said} farther away`,
  nowhere: 'passes nowhere within 400 mm',
  release: 'Release, step by step',
  releaseLine: (when: string, acts: readonly string[]) => `${when}: ${listed(acts)}`,
  padAct: (pad: string, act: string) => `pad ${pad} ${act}`,
  down: (share: number) => `to ${Math.round(share * 100)}${SPACE}% of its power`,
  off: 'off',
  lift: 'lifted',
  noRelease: 'No release is planned: the joint does not get there.',
  touch: 'Metal safe to touch',
  touchLine: (layer: string, contact: string, threshold: string, from: string) =>
    `${layer}, contact of ${contact} (below ${threshold}): from ${from}`,
  kinds: {
    loom: 'loom',
    seal: 'seal',
    foam: 'foam',
    paint_edge: 'paint edge',
    gas_generator: 'gas generator',
    fuel_line: 'fuel line',
    brake_line: 'brake line',
    still_bonded: 'still-bonded stretch',
    other: 'other',
  } as { readonly [kind: string]: string },
}
