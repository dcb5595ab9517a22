// Words of the form of a heat zone.

import { SPACE } from './en_heat_office.ts'
import { NARROW_FIELDS } from './en_heat_office_fields.ts'
import { tables } from './en_heat_plan.ts'
import { listed } from './format.ts'

export const editing = {
  title: (name: string) => `Change a copy of ${name}`,
  newTitle: 'Begin a zone',
  note: 'A zone that is here stays as it is. What you change is kept as another zone, under a digest of its own.',
  newNote:
    'Every figure that stands here is of the usual size for its kind, and of no vehicle. Replace each by the vehicle’s and the data sheet’s own.',
  keep: 'Keep',
  keepAndPlan: 'Keep and plan',
  keeping: 'Checking and keeping',
  undo: 'Undo',
  jointHelp: `Drag a pad, sensor or neighbour, or go to its key and press the arrow keys: 1${SPACE}mm, with Shift 10${SPACE}mm.`,
  section: 'Section',
  sectionAt: (x: string) => `Cut at ${x} along`,
  sectionNote: (times: number) => `Heated side on top. Thickness is drawn ${times} times as large as length.`,
  sectionHollow: 'How deep the hollow profile is stands in the document; it is not drawn to scale.',
  sectionPlace: 'Where the section is cut',
  parts: {
    zone: 'Zone',
    bondline: 'Bondline and limits',
    layers: 'Layers, from the heated side inward',
    pads: 'Pads',
    sensors: 'Sensors',
    neighbours: 'Neighbours',
    earlier: 'Earlier runs on the same profile',
    around: 'Losses, edges, supply, band',
  },
  add: {
    pads: 'Add a pad',
    sensors: 'Add a sensor',
    neighbours: 'Add a neighbour',
    layers: 'Add a layer',
    earlier: 'Add an earlier run',
  },
  remove: (what: string) => `Remove ${what}`,
  thing: {
    pads: (id: string) => `Pad ${id}`,
    sensors: (id: string) => `Sensor ${id}`,
    neighbours: (name: string) => `Neighbour ${name}`,
    layers: (name: string) => `Layer ${name}`,
    earlier: (number: number) => `Earlier run ${number}`,
  },
  things: 'What can be moved',
  moves: (what: string, where: string) => `${what}, ${where}. Arrow keys move it.`,
  boxAt: (x0: string, x1: string, y0: string, y1: string) => `${x0} to ${x1} along, ${y0} to ${y1} across`,
  pointAt: (x: string, y: string) => `${x} along, ${y} across`,
  onPad: (pad: string, from: string) => `on pad ${pad}, ${from} from its edge`,
  besidePad: (pad: string, away: string) => `${away} beside pad ${pad}`,
  kept: (keys: readonly string[]) => `Also in this document, and kept as it is: ${listed(keys)}.`,
  bondlineLayer: 'the bondline',
  choose: 'choose',
}

export const fieldWords = {
  name: (key: string): string => NARROW_FIELDS[key]?.[0] ?? key,
  unit: (key: string): string => NARROW_FIELDS[key]?.[1] ?? '',
  note: (key: string): string => NARROW_FIELDS[key]?.[2] ?? '',
  places: {
    box_mm: ['from x', 'from y', 'to x', 'to y'],
    covers_mm: ['from x', 'from y', 'to x', 'to y'],
    at_mm: ['x', 'y'],
    size_mm: ['along', 'across'],
    contact_factor: ['low', 'high'],
    loss_factor: ['low', 'high'],
  } as { readonly [key: string]: readonly string[] },
  choice: (choice: string): string => choiceWords[choice] ?? choice,
}

const choiceWords: { readonly [choice: string]: string } = {
  removal: 'removal',
  cure: 'cure',
  metal: 'metal',
  adhesive: 'adhesive',
  composite: 'composite',
  ...tables.kinds,
}
