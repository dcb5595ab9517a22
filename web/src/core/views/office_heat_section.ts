/** A cut across a heat zone: which layer lies where and how deep, in mm; depth counts from the heated face. */
import { canBeDrawn, type Joint, type Point } from './office_heat_document.ts'

export type SectionPart = {
  readonly kind: 'pad' | 'metal' | 'adhesive' | 'composite' | 'other' | 'wall' | 'web'
  readonly id: string
  readonly name: string
  readonly y: Point
  readonly depth: Point
  readonly thickness_mm: number
}
export type Section = {
  readonly parts: readonly SectionPart[]
  /** From the pads' backs to the last layer. */
  readonly depth: Point
  /** How many times thickness is drawn larger than length. */
  readonly times: number
}

const PAD_MM = 1.5
const CAVITY_MM = 5
const SHARE_OF_WIDTH = 0.4

export function sectionAt(joint: Joint, x_mm: number): Section {
  const stack = stackOf(joint, x_mm)
  const last = stack.reduce((deepest, part) => Math.max(deepest, part.depth[1]), 0)
  const parts = [...padsOf(joint, x_mm), ...stack, ...profileOf(joint, x_mm)]
  const end = parts.reduce((deepest, part) => Math.max(deepest, part.depth[1]), last)
  return { parts, depth: [-PAD_MM, end], times: timesOf(joint.size[1], end + PAD_MM) }
}

/** A whole number of times, so that a thickness can be read off. */
function timesOf(width_mm: number, depth_mm: number): number {
  return Math.max(1, Math.floor((SHARE_OF_WIDTH * width_mm) / Math.max(depth_mm, 1)))
}

const isCut = ([from, until]: Point, x_mm: number): boolean => x_mm >= from && x_mm <= until

function padsOf({ pads }: Joint, x_mm: number): readonly SectionPart[] {
  return pads
    .filter(({ box }) => canBeDrawn(box) && isCut([box[0], box[2]], x_mm))
    .map(({ id, name, box }) => ({
      kind: 'pad',
      id,
      name,
      y: [box[1], box[3]],
      depth: [-PAD_MM, 0],
      thickness_mm: PAD_MM,
    }))
}

function stackOf({ layers }: Joint, x_mm: number): readonly SectionPart[] {
  let deep = 0
  return layers.flatMap((layer) => {
    const depth: Point = [deep, deep + layer.thickness_mm]
    deep = depth[1]
    const { id, name, thickness_mm } = layer
    const kind = kindOf(layer.role)
    return layer.covers
      .filter((box) => isCut([box[0], box[2]], x_mm))
      .map((box): SectionPart => ({ kind, id, name, y: [box[1], box[3]], depth, thickness_mm }))
  })
}

function kindOf(role: string): 'metal' | 'adhesive' | 'composite' | 'other' {
  return role === 'metal' || role === 'adhesive' || role === 'composite' ? role : 'other'
}

/** A hollow profile's far wall and webs, behind the heated metal; its depth is not to scale. */
function profileOf({ profile, layers }: Joint, x_mm: number): readonly SectionPart[] {
  if (profile === undefined || !isCut([profile.box[0], profile.box[2]], x_mm)) return []
  const behind = layers[0]?.thickness_mm ?? 0
  const far = behind + CAVITY_MM
  const wall: SectionPart = {
    kind: 'wall',
    id: 'wall',
    name: '',
    y: [profile.box[1], profile.box[3]],
    depth: [far, far + profile.wall_mm],
    thickness_mm: profile.wall_mm,
  }
  const webs = profile.webs.map(
    ({ y_mm, thickness_mm }): SectionPart => ({
      kind: 'web',
      id: `web ${y_mm}`,
      name: '',
      y: [y_mm - thickness_mm / 2, y_mm + thickness_mm / 2],
      depth: [behind, far],
      thickness_mm,
    }),
  )
  return [wall, ...webs]
}
