// Words of the page of a computation: the answer in one sentence, what it waits for, what nobody may answer.

import { MS_PER_MIN } from '../../core/computations/figures.ts'
import type { Answer } from '../../core/computations/shapes.ts'
import { laidSentence, lengthSentence } from './en_compute_lengths.ts'
import { valueWords } from './en_compute_lines.ts'
import { duration, plural, when } from './format.ts'

export const computeWords = {
  verdict: {
    inside: 'Within what is allowed',
    outside: 'Not within what is allowed',
    none: 'For information',
  },
  waits: 'Waits for',
  working: 'Waits until it is worked out from the records',
  wait: (name: string, step: number) => `${name}, step ${step}`,
  waitFirst: 'Nothing is assumed: it is worked out once these are recorded.',
  notPinned: 'a method that is not pinned to this job',
  inputs: (n: number) => `Worked out from ${n} ${plural(n, 'input', 'inputs')}`,
  already: (n: number) => `Already there: ${n} ${plural(n, 'input', 'inputs')}`,
  constant: 'by the method',
  rivets: (n: number) => `${n} ${plural(n, 'rivet', 'rivets')}`,
  onTheMap: 'as recorded, on the map',
  sheet: (sheet: string, revision: string) => `by the supplier’s sheet: ${sheet}, revision ${revision}`,
  sheetBand: (low: string, high: string) => `it gives ${low} to ${high}`,
  instead: (said: string) => `the method says ${said}`,
  row: (name: string, from: string, to: string) =>
    name === '' ? `${from} to ${to}` : `${name}: ${from} to ${to}`,
  planned: (zone: string, air: string) => `by the office, zone ${zone}, for air of ${air}`,
  otherSheet: 'Another supplier’s sheet or heat plan is in use since it was recorded.',
  band: (low: string, high: string) => `${low} to ${high}`,
  first: 'The maker’s instruction and the data sheet come first.',
  sources: 'Rules and sources',
  model: (name: string) => `Model ${name}`,
  record: 'Record the result',
  again: 'Record it anew',
  stale: 'The records have moved on since it was recorded.',
  recorded: (at: string, who: string) => `Recorded ${at}, ${who}`,
  same: 'Recorded. Nothing has changed since.',
  back: 'Back to the step',
  decide: 'What do you decide, and why?',
  outside: 'Outside what is allowed: going on wants a deviation.',
  to: (name: string) => `To ${name}`,
  toMap: 'To the lost pieces on the map',
  toCount: (ask: string, step: number) => `Count anew: ${ask}, step ${step}`,
  room: (edge: string, edgeLeast: string, pitch: string, pitchLeast: string) =>
    `To scale: edge ${edge}, at least ${edgeLeast}${pitch === '' ? '' : `; next hole ${pitch}, at least ${pitchLeast}`}`,
  after: 'after the best fit, drawn 100 times larger',
  sketch: (n: number) => `What is left at ${n} points after the best fit`,
  point: 'Point',
  gap: 'Gap',
  step: 'Step',
  change: 'Since dry fit',
  left: 'Left',
  piece: 'Pieces',
  pieces: { head: 'Heads', mandrel: 'Mandrels', shank: 'Shanks' },
  tally: { owed: 'Owed', taken: 'Taken', lost: 'Lost', counted: 'In the tray' },
  moved: 'Moved',
  refused: 'This cannot be worked out',
  refusedAt: (field: string, why: string) => `${field}: ${why}`,
  readAt: (at: string, who: string, step: number) => `Step ${step}, ${at}, ${who}`,
}

const REFUSED: Readonly<Record<string, string>> = {
  not_there: 'nothing is recorded, or the method names nothing.',
  not_here: 'this phone does not know the computation. An update may bring it.',
  not_above_zero: 'it must be more than zero.',
  under_zero: 'it cannot be less than zero.',
  humidity_range: 'above 0 and at most 100 % can be a humidity.',
  air_range: 'the dew point’s formula holds from −45 to 60 °C.',
  too_dry: 'the air is too dry for the formula.',
  other_points: 'the readings do not cover the same points.',
  on_a_line: 'a turn is open: the points lie on one line, or two of them are exchanged.',
  band_turned: 'it lies above the other end of the band.',
  under_coldest: 'it lies under the coldest reading.',
  more_than_holes: 'one bit cannot have done more holes than there are.',
  no_group_point: 'a group has no reading of its own.',
  no_group: 'no electromotive group is known for this material.',
  no_bondline: 'the earlier result has no bondline.',
  no_run: 'no heat run of this zone and purpose is in the methods.',
  all_waste: 'all of it stays behind in the mixer.',
  slip: 'under half or over twice the nominal: a slip of unit or decimal point?',
  later_than_now: 'it lies ahead of now: check the clock.',
  minutes_back: 'the log’s minutes go back.',
}

export function refusedWords(code: string): string {
  return REFUSED[code] ?? code.replaceAll('_', ' ')
}

/** Choices that a border case offers before the reason. */
export const decisions: Readonly<Record<string, readonly string[]>> = {
  grip_border: ['This rivet', 'Another length', 'Measure again'],
  grip_spans: ['This rivet', 'Another length', 'Even out the bondline'],
  rivet_unsaid: ['Stainless steel', 'Aluminium', 'Ask the office'],
}

type Of = (name: string) => string
type Label = (id: string) => string
type Sentence = (of: Of, answer: Answer, clock: (minutes: number) => string, label: Label) => string

const some = (counted: string, thing: string): string => `${counted} ${counted === '1' ? thing : `${thing}s`}`

const SENTENCES: Readonly<Record<string, Sentence>> = {
  best_fit: (of, { verdict }) =>
    verdict === 'inside'
      ? `At most ${of('largest_residual')} are left at any point after the best fit.`
      : `${of('largest_residual')} are left at one point after the best fit.`,
  bead_volume: (of, { values }) =>
    values.some((one) => one.name === 'cartridges')
      ? `Lay ready ${some(of('cartridges'), 'cartridge')} and ${some(of('mixers'), 'mixer')}.`
      : `The bondline is ${of('bondline_mean')} on average and takes ${of('volume')} of adhesive.`,
  bit_use: (of, { verdict }) =>
    verdict === 'inside'
      ? `${some(of('bits_used'), 'bit')} for these holes, at most ${of('per_bit')} holes each.`
      : `One bit did ${of('per_bit')} holes, ${of('limit')} are allowed: ${some(of('bits_needed'), 'bit')} at least.`,
  cure_progress: (of, answer, clock) => cureSentence(of, answer, clock),
  dew_point_margin: (of) => `The surface is ${of('margin')} over the dew point.`,
  edge_distance: (of, { verdict }) =>
    verdict === 'inside'
      ? `The edge has ${of('room')} more than its minimum of ${of('minimum')}.`
      : `The edge is too near: ${of('minimum')} are the minimum.`,
  galvanic_pairs: (_, { verdict }) =>
    verdict === 'inside' ? 'What touches in this joint may touch.' : 'Something touches that must not.',
  gap_and_step: (of, { verdict }) =>
    verdict === 'inside'
      ? `Gaps from ${of('narrowest_gap')} to ${of('widest_gap')}, steps up to ${of('largest_step')}.`
      : 'A gap or a step is outside its limit.',
  grip: (of, answer, _, label) => {
    if (of('lengths_offered') !== '') return lengthSentence(answer, label)
    return answer.verdict === 'inside'
      ? 'The rivet holds the grip of every group.'
      : 'The rivet does not hold every grip.'
  },
  heat_plan: (of, { model, values }) => {
    if (model === 'method-times-1') return `Ramp about ${of('ramp')}, then ${of('soak')} of soak.`
    const has = (name: string) => values.some((one) => one.name === name)
    if (!has('workable')) return 'By the plan it never becomes workable.'
    const late = has('workable_until') ? of('workable_until') : 'never'
    return `Workable after ${of('workable')} (${of('workable_from')} to ${late}); release from ${of('heat_until')} on.`
  },
  heat_verdict: (_, { verdict }) =>
    verdict === 'outside'
      ? 'The run does not conform.'
      : verdict === 'inside'
        ? 'The run conforms.'
        : 'Nothing to judge yet.',
  hole_decision: (of, { lines }) => holeSentence(of, lines[0]?.code ?? '', lines),
  laminate_drying: (of, { verdict }) =>
    verdict === 'inside' ? `Dried for ${of('in_band')} inside the band.` : 'Not dried as the method asks.',
  open_time: (of, { values }, clock) => {
    const left = values.find((one) => one.name === 'left')
    if (left === undefined) return `The parts may be joined for ${of('open_time')} from the first gram.`
    return left.value > 0
      ? `Open until ${clock(left.value)}: ${of('left')} left.`
      : 'The open time has run out.'
  },
  pick_list: (of, { values, lines }) => {
    if (lines.some(({ code }) => code === 'length_open')) return 'A length is missing: lay nothing ready yet.'
    const trial = of('trial') === '' ? '' : ` and ${of('trial')} for trial`
    const laid = laidSentence(values) || `${of('to_pick')} rivets`
    return `Lay ${laid} ready: ${of('counted')} for the holes, ${of('spares')} to spare${trial}.`
  },
  tally_reconciliation: (_, { verdict }) =>
    verdict === 'inside' ? 'Every piece is accounted for.' : 'Pieces do not agree with the rivets.',
  thermal_mismatch: (of) => `At ${of('at')} each end has travelled ${of('end_travel')} since the bond set.`,
}

/** Decided one by one: what is left over for whom. */
function eachHole(of: Of): string {
  const parts = [
    ['holes_to_maker', 'for the maker'],
    ['holes_larger', 'for the next size'],
    ['holes_opened', 'to open'],
  ].flatMap(([name = '', word]) => (/^[1-9]/.test(of(name)) ? [`${of(name)} ${word}`] : []))
  return parts.length === 0 ? 'Every hole may be used as it is.' : `Holes: ${parts.join(', ')}.`
}

function holeSentence(of: Of, code: string, lines: Answer['lines']): string {
  if (lines.some((one) => one.code === 'damaged_holes')) return 'Ask the maker about the damaged holes.'
  if (of('holes_used') !== '') return eachHole(of)
  if (code === 'reuse') return 'The holes may be used as they are.'
  if (code === 'open_to_nominal') return `Open the hole to ${of('drill_to')}, its own size.`
  if (code === 'next_size') return `Take the next size, ${of('rivet')}.`
  return 'Ask the maker about the worst hole.'
}

function cureSentence(of: Of, { values, lines, verdict }: Answer, clock: (m: number) => string): string {
  const left = (name: string) => values.find((one) => one.name === name)?.value ?? 0
  if (left('full_left') === 0) return 'Full cure by computation and data sheet.'
  if (lines.some(({ code }) => code === 'stands_still')) return 'Too cold to cure: it stands still.'
  if (left('handling_left') > 0) {
    return `Handling cure at about ${clock(left('handling_left'))}, in ${minutes(left('handling_left'))}.`
  }
  if (verdict === 'outside' && of('full_share') !== '') {
    return `Handling cure by time; full cure at about ${clock(left('full_left'))}.`
  }
  return `Handling cure is reached. Full cure at about ${clock(left('full_left'))}.`
}

function minutes(n: number): string {
  return duration(n * MS_PER_MIN)
}

/** The answer in one sentence; times of day by the wall clock of the phone. */
export function sentenceOf(
  computation: string,
  answer: Answer,
  now_ms: number,
  label: Label = (id) => id,
): string {
  const of = (name: string) => {
    const found = answer.values.find((one) => one.name === name)
    return found === undefined ? '' : valueWords(found)
  }
  const clock = (n: number) => when(now_ms + n * MS_PER_MIN, now_ms)
  return SENTENCES[computation]?.(of, answer, clock, label) ?? ''
}
