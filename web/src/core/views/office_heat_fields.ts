/** The fields of a heat zone's form: which members of the document, their unit, and which faults are theirs. */
import type { Json } from '../canonical.ts'
import { at, type Path, pathName } from './office_heat_document.ts'

export type FieldKind = 'number' | 'text' | 'choice' | 'heat' | 'switch'
export type ZoneField = {
  readonly path: Path
  readonly kind: FieldKind
  readonly choices?: readonly string[]
}
/** Members that are one thing in several figures, such as a box, stand side by side. */
export type FieldGroup = { readonly key: string; readonly path: Path; readonly fields: readonly ZoneField[] }
export type ZoneFault = { readonly field: string; readonly mend: string; readonly line?: number }

const number = (...path: Path): ZoneField => ({ path, kind: 'number' })
const text = (...path: Path): ZoneField => ({ path, kind: 'text' })
const choice = (choices: readonly string[], ...path: Path): ZoneField => ({ path, kind: 'choice', choices })

const one = (field: ZoneField): FieldGroup => ({
  key: String(field.path.at(-1)),
  path: field.path,
  fields: [field],
})
const many = (count: number, ...path: Path): FieldGroup => ({
  key: String(path.at(-1)),
  path,
  fields: Array.from({ length: count }, (_, place) => number(...path, place)),
})

export const PURPOSES = ['removal', 'cure'] as const
export const ROLES = ['metal', 'adhesive', 'composite', 'other'] as const
const NEIGHBOUR_KINDS = [
  'loom',
  'seal',
  'foam',
  'paint_edge',
  'gas_generator',
  'fuel_line',
  'brake_line',
  'still_bonded',
  'other',
] as const

const idsOf = (document: Json, list: string): readonly string[] => {
  const found = at(document, [list])
  return Array.isArray(found) ? (found as readonly Json[]).map((item) => String(at(item, ['id']) ?? '')) : []
}

export function zoneFields(): readonly FieldGroup[] {
  return [
    one(text('id')),
    one(text('name')),
    one(choice(PURPOSES, 'purpose')),
    one({ path: ['invented'], kind: 'switch' }),
    one(number('ambient_C')),
    one(number('duration_min')),
    many(2, 'size_mm'),
  ]
}

export function bondFields(document: Json): readonly FieldGroup[] {
  const bond = ['workable_C', 'maximum_C', 'soak_min', 'wedging_min'] as const
  return [
    one(choice(idsOf(document, 'layers'), 'bondline', 'layer')),
    ...bond.map((key) => one(number('bondline', key))),
    ...(['ramp_K_min', 'cooling_K_min'] as const).map((key) => one(number('limits', key))),
  ]
}

export function layerFields(document: Json, place: number): readonly FieldGroup[] {
  const base = ['layers', place] as const
  const covers = at(document, [...base, 'covers_mm'])
  const boxes = Array.isArray(covers) ? covers.length : 0
  const figures = [
    'thickness_mm',
    'conductivity_through_W_mK',
    'conductivity_x_W_mK',
    'conductivity_y_W_mK',
    'density_kg_m3',
  ] as const
  return [
    one(text(...base, 'id')),
    one(text(...base, 'name')),
    one(choice(ROLES, ...base, 'role')),
    ...figures.map((key) => one(number(...base, key))),
    one({ path: [...base, 'specific_heat_J_kgK'], kind: 'heat' }),
    one(number(...base, 'limit_C')),
    ...Array.from({ length: boxes }, (_, box) => ({
      ...many(4, ...base, 'covers_mm', box),
      key: 'covers_mm',
    })),
  ]
}

export function padFields(place: number): readonly FieldGroup[] {
  const base = ['pads', place] as const
  const figures = ['setpoint_C', 'power_W_cm2', 'power_share', 'contact_W_m2K'] as const
  return [
    one(text(...base, 'id')),
    one(text(...base, 'name')),
    many(4, ...base, 'box_mm'),
    ...figures.map((key) => one(number(...base, key))),
  ]
}

export function sensorFields(document: Json, place: number): readonly FieldGroup[] {
  const base = ['sensors', place] as const
  return [
    one(text(...base, 'id')),
    many(2, ...base, 'at_mm'),
    one(choice(['', ...idsOf(document, 'layers')], ...base, 'layer')),
  ]
}

export function neighbourFields(document: Json, place: number): readonly FieldGroup[] {
  const base = ['neighbours', place] as const
  return [
    one(text(...base, 'id')),
    one(text(...base, 'name')),
    one(choice(NEIGHBOUR_KINDS, ...base, 'kind')),
    many(2, ...base, 'at_mm'),
    one(choice(idsOf(document, 'layers'), ...base, 'layer')),
    one(number(...base, 'limit_C')),
  ]
}

export function earlierFields(document: Json, place: number): readonly FieldGroup[] {
  const base = ['earlier_runs', place] as const
  return [
    one(choice(idsOf(document, 'layers'), ...base, 'layer')),
    one(number(...base, 'above_C')),
    one(number(...base, 'minutes')),
    one(text(...base, 'zone')),
  ]
}

export function surroundingFields(): readonly FieldGroup[] {
  const faces = (['heated_face', 'inner_face'] as const).flatMap((face) =>
    (['coefficient_W_m2_at_1K', 'flux_exponent', 'emissivity'] as const).map((key) => ({
      ...one(number('losses', face, key)),
      key: `${face}.${key}`,
    })),
  )
  const edges = (['x_low', 'x_high', 'y_low', 'y_high'] as const).map((side) => ({
    ...one(number('edges', side, 'runs_on_mm')),
    key: `${side}.runs_on_mm`,
  }))
  return [
    ...faces,
    ...edges,
    one(number('supply', 'voltage_V')),
    one(number('supply', 'circuit_A')),
    many(2, 'bands', 'contact_factor'),
    many(2, 'bands', 'loss_factor'),
  ]
}

/** A member that belongs to a list goes once its last figure is cleared; `undefined` leaves it out. */
export function typedMember(kind: FieldKind, typed: string): Json | undefined {
  const trimmed = typed.trim()
  if (trimmed === '') return undefined
  if (kind === 'heat') return heatCapacity(trimmed)
  if (kind !== 'number') return typed
  const value = Number(trimmed.replace(',', '.'))
  return Number.isFinite(value) ? value : trimmed
}

export function memberText(kind: FieldKind, value: Json | undefined): string {
  if (value === undefined) return ''
  if (kind !== 'heat' || !Array.isArray(value)) return String(value)
  return (value as readonly Json[])
    .map((row) => (Array.isArray(row) ? row.join(': ') : String(row)))
    .join(', ')
}

/** One figure, or a table such as `20: 900, 100: 935`. */
function heatCapacity(typed: string): Json {
  const single = Number(typed)
  if (Number.isFinite(single)) return single
  const rows = typed.split(',').map((row) => row.split(':').map((part) => Number(part.trim())))
  return rows.every((row) => row.length === 2 && row.every(Number.isFinite)) ? rows : typed
}

const IN_FORM: ReadonlySet<string> = new Set([
  'form',
  'id',
  'name',
  'purpose',
  'invented',
  'ambient_C',
  'duration_min',
  'size_mm',
  'bondline',
  'limits',
  'layers',
  'pads',
  'sensors',
  'neighbours',
  'losses',
  'edges',
  'supply',
  'bands',
  'earlier_runs',
])

/** Members of the document that the form does not show; they are kept as they are. */
export function untouched(document: Json): readonly string[] {
  return typeof document === 'object' && !Array.isArray(document)
    ? Object.keys(document).filter((key) => !IN_FORM.has(key))
    : []
}

/** The faults that are this member's own, or of a part of it. */
export function faultsAt(faults: readonly ZoneFault[], path: Path): readonly ZoneFault[] {
  const name = pathName(path)
  return faults.filter(
    ({ field }) => field === name || field.startsWith(`${name}[`) || field.startsWith(`${name}.`),
  )
}
