// What a computation says beside its figures, one sentence a line. Fetched with its page.
import { MS_PER_MIN } from '../../core/computations/figures.ts'
import type { Line } from '../../core/computations/shapes.ts'
import type { ResultValue } from '../../core/entries.ts'
import { holeLines } from './en_compute_holes.ts'
import { lengthLines } from './en_compute_lengths.ts'
import { capital, duration, listed, quantity } from './format.ts'

const CAUTION: Readonly<Record<string, string>> = {
  none: 'no care',
  mild: 'mild care',
  moderate: 'moderate care',
  strong: 'strong care',
}
const WHY: Readonly<Record<string, string>> = {
  smaller: 'smaller than its range',
  beyond_next: 'larger than the next size allows',
  none_kept: 'the method names no larger rivet',
  room_unknown: 'edge distance and pitch are not known',
  edge_short: 'edge distance too small for the next size',
  pitch_short: 'the neighbours are too near for the next size',
  still_oval: 'the next size would still be oval',
  worn: 'too large or too oval for its own size',
  own_edge_short: 'edge distance too small for its own size',
  own_pitch_short: 'the neighbours are too near for its own size',
}

type Said = (at: readonly string[], of: (name: string) => string, line: Line) => string

/** `at` are the line's things by their labels, `of` its figures by name. */
const LINES: Readonly<Record<string, Said>> = {
  band_reaches_least: (_, of) =>
    `The instruments’ own error reaches down to ${of('margin_low')}, under the ${of('least')} asked for.`,
  bead_too_small: (_, of) => `The bead lacks ${of('missing')} to fill the bondline.`,
  bit_change_after: (_, of) => `Holes that the last bit may still do: ${of('last_bit_left')}.`,
  bit_change_now: () => 'Change the last bit now: it has done its holes.',
  bit_over: (_, of) =>
    `${of('per_bit')} holes with one bit, ${of('limit')} are allowed: look at its last holes, front and back.`,
  by_sheet: (_, of) => `${of('temperature')} at most: the sheet’s own time. Colder lengthens nothing.`,
  cold_counts_nothing: (_, of) => `${of('cold')} under the sheet’s minimum count nothing.`,
  damaged_holes: (at) => `Marked damaged: ${listed(at)}. They go to the maker’s rule.`,
  differs_head: () => 'Heads taken do not match the rivets out.',
  differs_mandrel: () => 'Mandrels taken do not match the rivets out.',
  differs_shank: () => 'Shanks taken do not match the rivets out.',
  drying_cold: (_, of) =>
    `Down to ${of('coldest')}, under ${of('from')}: for how long is not known, so nothing counts.`,
  drying_hot: (_, of) => `Up to ${of('hottest')}, over ${of('to')}: ask the maker before it is used.`,
  drying_short: (_, of) => `${of('still_to_dry')} inside the band are missing.`,
  edge_short: (_, of) => `Short of the minimum of ${of('minimum')}.`,
  elastic_only: () =>
    'Elastic only: no peel, no creep, no bending. What the adhesive bears stands in its sheet.',
  falling: (_, of) => `Falling by ${of('per_hour')}: the least is reached in about ${of('until_least')}.`,
  from_coldest: () => 'All the time counts at the coldest flange reading.',
  frost: () => 'Below 0 °C water settles as frost first: the frost point counts.',
  gap_over: (at, of) => `Gap off by more than ${of('allowed')}: ${listed(at)}.`,
  grip_border: (at, of) =>
    `On the border of ${of('from')} to ${of('to')}: ${listed(at)}. Which rivet, and why?`,
  grip_no_fit: (at, of) => `No part of the grip lies in ${of('from')} to ${of('to')}: ${listed(at)}.`,
  grip_not_held: () => 'The grip is not settled: these rivets may not hold it.',
  grip_spans: (at, of) =>
    `Between thinnest and thickest gap the grip leaves ${of('from')} to ${of('to')}: ${listed(at)}. Which rivet, and why?`,
  holes_ask_maker: () => 'The holes wait for the maker’s word.',
  holes_beyond_next: (at) => `Larger than the next size allows: ${listed(at)}. Ask the maker.`,
  holes_edge_short: (at) => `Edge too near for the next size: ${listed(at)}. Ask the maker.`,
  holes_none_kept: (at) => `Too large or too oval, no larger rivet is kept: ${listed(at)}. Ask the maker.`,
  holes_pitch_short: (at) => `Neighbours too near for the next size: ${listed(at)}. Ask the maker.`,
  holes_room_unknown: (at) =>
    `Measure edge and pitch before going up a size: ${listed(at)}. Until then ask the maker.`,
  holes_smaller: (at) => `Under their range, open them to their own size: ${listed(at)}.`,
  holes_still_oval: (at) => `The next size would still be oval: ${listed(at)}. Ask the maker.`,
  holes_worn: (at) => `Take the next size, and look at the neighbours again: ${listed(at)}.`,
  isolated: ([first = '', second = '']) => `${first} and ${second}: parted by the glass ply.`,
  lot_expired: ([lot = '']) => `Lot ${lot} was past its date when it was recorded.`,
  lot_wrong: ([lot = '']) =>
    `Lot ${lot} is of another material: a sheet’s figures hold for its own product alone.`,
  lost_head: (at) => `Head lost at ${listed(at)}.`,
  lost_mandrel: (at) => `Mandrel lost at ${listed(at)}.`,
  lost_shank: (at) => `Shank lost at ${listed(at)}.`,
  maker_first: () => 'An aluminium rivet through carbon: ask the maker before one is set.',
  mirrored: () => 'A mirror image would fit better: have two points been exchanged?',
  mixer_restarts_nothing: () => 'Counted from the first gram mixed. A new mixer does not restart it.',
  moved_over: (at, of) => `Moved by more than ${of('allowed')} since before: ${listed(at)}.`,
  near_a_line: () => 'The points lie nearly on a line: the turn about it is uncertain.',
  next_size: (_, of) => `Lay the next size beside: ${of('rivet')}. It has rows and lengths of its own.`,
  next_size_needs: (_, of) =>
    `The next size, ${of('rivet')}, wants ${of('edge')} to the edge and ${of('pitch')} to its neighbours.`,
  no_forecast: () => 'The method’s own times. Nobody worked out a plan for this run.',
  no_moisture_told: () => 'Time and temperature only: how much water is left is not told.',
  not_set: (at) => `Not set yet: ${listed(at)}.`,
  one_spare: () => 'And one spare cartridge and one spare mixer within reach.',
  open_time_over: (_, of) => `The open time has run out; ${of('used')} have gone by.`,
  pair: ([first = '', second = '', wet = '', dry = '', anode = '']) =>
    `${first} and ${second}: ${CAUTION[wet] ?? wet} wet, ${CAUTION[dry] ?? dry} dry${anode === '' ? '' : `; ${anode} would corrode`}.`,
  plan_hot_bond: (_, of) =>
    `At the hot end of the band the bond reaches ${of('high')}; ${of('limit')} are allowed.`,
  plan_hot_metal: (_, of) =>
    `At the hot end of the band the metal reaches ${of('high')}; ${of('limit')} are allowed.`,
  plan_infeasible: () => 'As the zone stands the plan is not feasible. Ask the office before you switch on.',
  plan_never_late: () => 'With the poorest contact and the most loss of the band it never becomes workable.',
  plan_other_air: (_, of) => `Planned for air of ${of('planned')}, here it is ${of('air')}.`,
  plan_other_soak: () => 'The plan soaks shorter than the method asks: the method’s soak counts. Go on?',
  planned: ([zone = '']) => `By the office’s plan of zone ${zone}, over the band of contact and loss.`,
  plain_mean: () => 'Plain mean: how far apart the places are is not told.',
  positions_differ: (_, of) => `${of('found')} heads were found, the map has ${of('counted')}.`,
  rehearsal_long: (_, of) => `The rehearsal took ${of('rehearsal')}; ${of('allowed')} are allowed.`,
  replaced: (at) => `Replaced, so a second mandrel and a set of pieces: ${listed(at)}.`,
  residual_over: (at, of) => `More than ${of('allowed')} left after the fit: ${listed(at)}.`,
  reuse: () => 'Inside its range and round enough.',
  rising: (_, of) => `Rising by ${of('per_hour')}.`,
  rivet_unsaid: () => 'The method does not name the rivet’s material. What is it made of?',
  run_counted: (_, of) => `The run’s log counts for ${of('span')}, by its coldest bond sensor.`,
  run_gaps: (_, of) => `${of('gaps')} of the run nobody measured: they count nothing.`,
  run_not_read: () => 'The run has too few readings: all the time counts at the coldest flange reading.',
  shortened: (_, of) => `Shortened: ${of('temperature')} is warmer than the sheet’s temperature.`,
  slowest_computed: () => 'The computed cure is the slower one.',
  slowest_sheet: () => 'The data sheet’s time is the slower one.',
  small_anode: ([rivet = '', ...sheets]) =>
    `The ${rivet} rivet is the small baser metal in ${listed(sheets)}.`,
  spent_differs: (_, of) => `${of('counted_mandrel')} spent mandrels for ${of('owed_mandrel')} rivets set.`,
  stands_still: (_, of) =>
    `Under ${of('minimum')}, the sheet’s minimum: it stands still. Warm the joint; what is left is counted at that.`,
  steady: () => 'Steady since the earlier measurement.',
  step_over: (at, of) => `Step over ${of('allowed')}: ${listed(at)}.`,
  thin_at_widest: (_, of) =>
    `At the widest gap, ${of('widest')}, the bead lacks ${of('missing_at_widest')}: lay it higher there.`,
  too_thick: (at, of) => `Over ${of('limit')}: ${listed(at)}. Too thick weakens the joint.`,
  too_thin: (at, of) => `Under ${of('limit')}: ${listed(at)}. Too thin starves it.`,
  tray_differs_head: (_, of) => `Heads: ${of('counted_head')} in the tray, ${of('taken')} by the map.`,
  tray_differs_mandrel: (_, of) =>
    `Mandrels: ${of('counted_mandrel')} in the tray, ${of('taken')} by the map.`,
  tray_differs_shank: (_, of) => `Shanks: ${of('counted_shank')} in the tray, ${of('taken')} by the map.`,
  under_least: (_, of) => `${of('least')} are asked for.`,
  upper_bound: () =>
    'The upper bound takes all travel into the adhesive: true of a soft sealant only. A stiff adhesive sees the elastic figure.',
  waits_blob: (_, of) => `The sample blob has ${of('blob')}, it wants ${of('least')}.`,
  waits_computed: (_, of) => `By the computed cure ${of('left')} are left.`,
  waits_sheet: (_, of) => `By the data sheet ${of('left')} are left.`,
  warming_saves: (_, of) =>
    `Warmed to ${of('warm_to')} and cool again it would be there in ${of('warm_left')} by the computation, ${of('warm_saves')} sooner. The sheet’s time at that heat stands above it.`,
  warming_saves_nothing: (_, of) => `Warming to ${of('warm_to')} and cooling again would save nothing.`,
  water_now: () => 'Water stands on the surface now.',
}
const DECISIONS: readonly string[] = ['ask_maker', 'next_size', 'open_to_nominal']

/** A line as a sentence; '' for what the figures say already. */
export function lineWords(line: Line, label: (id: string) => string): string {
  const at = line.at.map(label)
  if (DECISIONS.includes(line.code) && line.tone === 'stop') return `Because: ${WHY[line.at[0] ?? ''] ?? ''}.`
  const of = (name: string) => {
    const found = line.values.find((one) => one.name === name)
    return found === undefined ? '' : valueWords(found)
  }
  return capital((LINES[line.code] ?? lengthLines[line.code] ?? holeLines[line.code])?.(at, of, line) ?? '')
}

/** A figure in a sentence: what is counted stands beside it, minutes from two hours on are hours. */
export function valueWords(value: ResultValue): string {
  return isLong(value) ? duration(value.value * MS_PER_MIN) : quantityOf(value)
}

/** The same in a table, where every figure has its unit. */
export function figureWords(value: ResultValue): string {
  if (isLong(value)) return valueWords(value)
  const { decimals, unit } = value
  if (unit === 'groups' && value.value === 1) return quantity(1, decimals, 'group')
  return quantity(value.value, decimals, PRINTED[unit] ?? unit)
}

const PRINTED: Readonly<Record<string, string>> = { deg: '°', pieces: 'pcs' }
const FROM_HOURS_MIN = 120

export function quantityOf({ value, decimals, unit }: ResultValue): string {
  return quantity(value, decimals, unit === 'pcs' || unit === 'pieces' ? '' : (PRINTED[unit] ?? unit))
}

function isLong({ unit, decimals, value }: ResultValue): boolean {
  return unit === 'min' && decimals === 0 && value >= FROM_HOURS_MIN
}
