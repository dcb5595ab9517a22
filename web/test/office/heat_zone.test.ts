// A heat zone's document under the hand: what is typed, what is moved, and how far things are apart.
import { describe, expect, it } from 'vitest'
import type { Json } from '../../src/core/canonical.ts'
import { at, jointOf, pathName, typedInto, withAt } from '../../src/core/views/office_heat_document.ts'
import {
  earlierFields,
  faultsAt,
  memberText,
  padFields,
  typedMember,
  untouched,
} from '../../src/core/views/office_heat_fields.ts'
import {
  added,
  addedEarlier,
  extentOf,
  moved,
  nearestPad,
  placeOf,
  removed,
  rulerMarks_mm,
  thingAt,
} from '../../src/core/views/office_heat_place.ts'
import { sectionAt } from '../../src/core/views/office_heat_section.ts'

const ZONE: Json = {
  id: 'seam',
  size_mm: [400, 100],
  layers: [
    { id: 'flange', role: 'metal', thickness_mm: 2 },
    { id: 'bond', role: 'adhesive', thickness_mm: 1, covers_mm: [[0, 40, 400, 60]] },
  ],
  bondline: { layer: 'bond', workable_C: 120, maximum_C: 190 },
  pads: [
    { id: 'P1', box_mm: [0, 30, 150, 70] },
    { id: 'P2', box_mm: [200, 30, 400, 70] },
  ],
  sensors: [{ id: 'a', at_mm: [75, 42] }],
  neighbours: [{ id: 'loom', kind: 'loom', at_mm: [450, 50], layer: 'flange', limit_C: 90 }],
  edges: { x_high: { runs_on_mm: 100 } },
}
const joint = jointOf(ZONE)

describe('typing', () => {
  it('sets one member and leaves the rest as it was', () => {
    const changed = typedInto(ZONE, ['pads', 1, 'box_mm', 2], 380)
    expect(at(changed, ['pads', 1, 'box_mm'])).toEqual([200, 30, 380, 70])
    expect(at(changed, ['pads', 0])).toBe(at(ZONE, ['pads', 0]))
  })

  it('takes a member away that was cleared, and its group with the last of it', () => {
    const changed = typedInto(ZONE, ['edges', 'x_high', 'runs_on_mm'], undefined)
    expect(at(changed, ['edges'])).toBeUndefined()
  })

  it('keeps the place of a figure that was cleared within a list', () => {
    expect(at(typedInto(ZONE, ['size_mm', 0], undefined), ['size_mm'])).toEqual(['', 100])
  })

  it('adds an earlier run of the heated layer, which the zone beside can be named for', () => {
    const twice = addedEarlier(addedEarlier(ZONE))
    expect(at(twice, ['earlier_runs', 1])).toEqual({ layer: 'flange', above_C: 150, minutes: 0 })
    expect(earlierFields(twice, 1).map((group) => pathName(group.path))).toEqual([
      'earlier_runs[1].layer',
      'earlier_runs[1].above_C',
      'earlier_runs[1].minutes',
      'earlier_runs[1].zone',
    ])
    expect(untouched(twice)).toEqual([])
  })

  it('makes what lies on the way', () => {
    const changed = typedInto(ZONE, ['supply', 'voltage_V'], 230)
    expect(at(changed, ['supply'])).toEqual({ voltage_V: 230 })
    expect(at(typedInto(ZONE, ['bands', 'loss_factor', 1], 1.4), ['bands', 'loss_factor'])).toEqual(['', 1.4])
  })

  it.each([
    ['1.5', 1.5],
    ['1,5', 1.5],
    [' 20 ', 20],
    ['warm', 'warm'],
    ['', undefined],
  ])('reads %j as a figure, and hands on what is none', (typed, found) => {
    expect(typedMember('number', typed)).toBe(found)
  })

  it('reads a heat capacity as one figure or by temperature, and writes it the same', () => {
    expect(typedMember('heat', '900')).toBe(900)
    expect(typedMember('heat', '20: 900, 100: 935')).toEqual([
      [20, 900],
      [100, 935],
    ])
    expect(memberText('heat', [[20, 900]])).toBe('20: 900')
    expect(typedMember('heat', '20: much')).toBe('20: much')
  })
})

describe('faults', () => {
  const faults = [
    { field: 'pads[1].box_mm', mend: 'overlaps pad P1' },
    { field: 'pads[1].power_W_cm2', mend: 'missing' },
    { field: 'pads[10].box_mm', mend: 'of another pad' },
  ]

  it('stand at the field whose name they bear', () => {
    const box = padFields(1).find((group) => group.key === 'box_mm')
    expect(pathName(box?.path ?? [])).toBe('pads[1].box_mm')
    expect(faultsAt(faults, box?.path ?? []).map((fault) => fault.mend)).toEqual(['overlaps pad P1'])
  })

  it('of a part stand at the whole too', () => {
    expect(faultsAt(faults, ['pads', 1])).toHaveLength(2)
  })

  it('leave what the form does not show to be named', () => {
    expect(untouched(withAt(ZONE, ['mesh'], { longest_step_s: 5 }))).toEqual(['mesh'])
  })
})

describe('moving', () => {
  it('shifts a pad whole, by half millimetres, and stops it at the zone’s end', () => {
    expect(at(moved(ZONE, { kind: 'pads', number: 0 }, [10.2, -4.9]), ['pads', 0, 'box_mm'])).toEqual([
      10, 25, 160, 65,
    ])
    expect(at(moved(ZONE, { kind: 'pads', number: 1 }, [90, 0]), ['pads', 1, 'box_mm'])).toEqual([
      200, 30, 400, 70,
    ])
  })

  it('lets a neighbour go as far as the metal runs on', () => {
    expect(at(moved(ZONE, { kind: 'neighbours', number: 0 }, [200, 0]), ['neighbours', 0, 'at_mm'])).toEqual([
      500, 50,
    ])
    expect(at(moved(ZONE, { kind: 'neighbours', number: 0 }, [-600, 0]), ['neighbours', 0, 'at_mm'])).toEqual(
      [0, 50],
    )
  })

  it('leaves alone what has no figures yet', () => {
    const half = withAt(ZONE, ['sensors', 0, 'at_mm', 0], '')
    expect(moved(half, { kind: 'sensors', number: 0 }, [5, 5])).toBe(half)
  })

  it('adds one under an id of its own, and takes it away', () => {
    const more = added(added(ZONE, 'sensors'), 'sensors')
    expect(jointOf(more).sensors.map((sensor) => sensor.id)).toEqual(['a', 's1', 's2'])
    expect(jointOf(removed(more, { kind: 'sensors', number: 1 })).sensors.map(({ id }) => id)).toEqual([
      'a',
      's2',
    ])
  })
})

describe('a pointer', () => {
  const both = jointOf(withAt(ZONE, ['neighbours', 0, 'at_mm'], [75, 45]))

  it('takes the nearest sensor or neighbour within reach, else the pad under it', () => {
    expect(thingAt(joint, [80, 42], 8, undefined)).toEqual({ kind: 'sensors', number: 0 })
    expect(thingAt(joint, [100, 42], 8, undefined)).toEqual({ kind: 'pads', number: 0 })
    expect(thingAt(joint, [175, 90], 8, undefined)).toBeUndefined()
  })

  it('keeps to what is chosen where two lie together', () => {
    const loom = { kind: 'neighbours', number: 0 } as const
    expect(thingAt(both, [75, 42], 8, undefined)).toEqual({ kind: 'sensors', number: 0 })
    expect(thingAt(both, [75, 42], 8, loom)).toEqual(loom)
  })

  it('is at a place by its share of the picture', () => {
    expect(placeOf({ x0: -10, y0: -10, x1: 90, y1: 40 }, [0.1, 0.8])).toEqual([0, 0])
  })
})

describe('distances', () => {
  it('tell how far from its pad’s edge a sensor is', () => {
    expect(nearestPad(joint, [75, 42])).toEqual({ pad: 'P1', away_mm: 12, on: true })
  })

  it('tell how far beside the nearest pad a place is', () => {
    // 3 along and 4 across beyond the corner (400, 70) of pad P2
    expect(nearestPad(joint, [403, 74])).toEqual({ pad: 'P2', away_mm: 5, on: false })
    expect(nearestPad(jointOf(withAt(ZONE, ['pads'], [])), [0, 0])).toBeUndefined()
  })

  it('are drawn with all neighbours, and with the beginning of what the metal runs on by', () => {
    // the neighbour at 450 with 12 mm round it, and 12 mm of room
    expect(extentOf(joint)).toEqual({ x0: -12, y0: -12, x1: 474, y1: 112 })
    // without it a tenth of the zone's length: 40 of 100 mm
    expect(extentOf(jointOf(withAt(ZONE, ['neighbours'], []))).x1).toBe(452)
  })

  it('have a ruler of round marks', () => {
    expect(rulerMarks_mm(400, 8)).toEqual([0, 50, 100, 150, 200, 250, 300, 350, 400])
    expect(rulerMarks_mm(565, 8)).toEqual([0, 100, 200, 300, 400, 500])
  })
})

describe('the section', () => {
  it('shows the pad on top, then the layers at their depth', () => {
    const { parts } = sectionAt(joint, 100)
    expect(parts.map(({ kind, id, y, depth }) => [kind, id, y, depth])).toEqual([
      ['pad', 'P1', [30, 70], [-1.5, 0]],
      ['metal', 'flange', [0, 100], [0, 2]],
      ['adhesive', 'bond', [40, 60], [2, 3]],
    ])
  })

  it('shows no pad between the pads', () => {
    expect(sectionAt(joint, 175).parts.map((part) => part.kind)).toEqual(['metal', 'adhesive'])
  })

  it('draws thickness a whole number of times larger', () => {
    // 0.4 of 100 mm over 4.5 mm of pad and layers
    expect(sectionAt(joint, 100).times).toBe(8)
  })
})
