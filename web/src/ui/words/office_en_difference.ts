// Words for what differs between two revisions of a method.

import type { Shown } from '../../core/views/member_changes.ts'
import type { MethodDifference } from '../../core/views/method_difference.ts'
import { capital, duration, listed, numberWord, plural, quantity } from './format.ts'

/** Members by their names in a compiled method document; one that has no word here says its own name. */
const MEMBERS: { readonly [member: string]: string } = {
  title: 'title',
  instruction: 'instruction',
  caution: 'caution',
  tools: 'tools',
  who: 'who does it',
  people: 'people',
  minutes: 'minutes planned',
  needs: 'needs',
  hold: 'hold point',
  hold_countersign: 'whose name a deviation past the hold needs',
  meanwhile: 'may go on while it is held',
  sets: 'sets',
  clears: 'clears',
  stage: 'stage',
  name: 'name',
  options: 'choices',
  unit: 'unit',
  decimals: 'decimals',
  min: 'minimum',
  max: 'maximum',
  plausible: 'plausible range',
  points: 'points',
  against: 'judged against',
  since: 'counted since',
  where_needed: 'read only where needed',
  when: 'asked only when',
  show: 'what must be seen',
  deadline: 'before which step',
  framing: 'framing',
  outline: 'framing drawing',
  of: 'of',
  group: 'group',
  groups: 'groups',
  to: 'until',
  ladder: 'ladder',
  zone: 'zone',
  purpose: 'purpose',
  parts: 'parts of the run',
  continues: 'continues the run of',
  sensors_unit: 'unit of the sensors',
  lagging_min: 'lagging minimum',
  leading_max: 'leading maximum',
  metal_max: 'maximum of bare metal',
  neighbour_max: 'maximum of what stays cool',
  ramp_max: 'fastest ramp',
  cooling_max: 'fastest cooling',
  lift_below: 'lifted below',
  setpoint: 'setpoint',
  soak_s: 'soak',
  gap_max_s: 'longest gap between readings',
  ramp_s: 'ramp',
  release: 'order of release',
  cold_below: 'cold below',
  other_device: 'on another device',
  at_the_car: 'at the car',
  computation: 'computation',
  inputs: 'inputs',
  conditions: 'standing conditions',
  zones: 'heat zones',
  materials: 'materials',
  drawings: 'drawings',
  vehicle: 'vehicle',
  part: 'part',
  needs_method: 'needs the method',
  point_sets: 'measuring points',
  maps: 'places in the drawing',
  facts: 'facts',
  order: 'order',
}

function shown(value: Shown): string {
  switch (value.as) {
    case 'nothing':
      return 'nothing'
    case 'words':
      return value.words
    case 'figure':
      return quantity(value.value, value.decimals, value.unit)
    case 'time':
      return duration(value.seconds * 1000)
    case 'yes_no':
      return value.yes ? 'yes' : 'no'
  }
}

const HOW = { added: 'added', removed: 'removed', changed: 'changed' } as const

function summary({ steps }: MethodDifference): string {
  const parts = (['changed', 'added', 'removed'] as const).flatMap((how) => {
    const n = steps.filter((step) => step.how === how).length
    return n === 0 ? [] : [`${numberWord(n)} ${plural(n, 'step', 'steps')} ${HOW[how]}`]
  })
  return parts.length === 0 ? 'No step differs.' : `${capital(listed(parts))}.`
}

export const difference = {
  title: (name: string, from: string, to: string) => `${name}: revision ${from} to ${to}`,
  summary,
  same: 'The two revisions are the same, to the letter.',
  how: HOW,
  member: (id: string) => MEMBERS[id] ?? id.replaceAll('_', ' '),
  shown,
  was: 'was',
  is: 'is now',
  gone: (items: readonly string[]) => `without: ${listed(items)}`,
  came: (items: readonly string[]) => `with: ${listed(items)}`,
  reordered: (items: readonly string[]) => `now in this order: ${listed(items)}`,
  answersAsBefore: 'What was recorded here answers as before.',
  whole: 'The method as a whole',
  anew: (n: number) =>
    `${capital(numberWord(n))} ${plural(n, 'step', 'steps')} with records ${plural(n, 'asks', 'ask')} anew: what was recorded there stays readable and answers nothing under the new revision.`,
  anewNone: 'No step that has records asks anew.',
  loading: 'Reading the two revisions.',
  unread: 'A revision could not be read, so the difference is not shown.',
  replaces: (from: string) => `replaces revision ${from}`,
}
