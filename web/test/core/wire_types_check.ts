/** Compiled, never run: the core's words for an entry and the document's mean the same, either way round. */
import type { Bodies, Entry, Envelope, KINDS, Kind } from '../../src/core/entries.ts'
import type * as wire from '../../src/core/wire_types.ts'

type Settled<Told> = Told extends object ? { readonly [Key in keyof Told]: Settled<Told[Key]> } : Told
type Same<One, Other> =
  (<T>() => T extends One ? 1 : 2) extends <T>() => T extends Other ? 1 : 2 ? true : false
type Either<One, Other> = [One] extends [Other] ? ([Other] extends [One] ? true : false) : false
type Holds<_Claim extends true> = true

/** Every entry of the core is one of the document's, and the other way round. */
export type EntriesAgree = Holds<Either<Entry, Settled<wire.Entry>>>
export type KindsAgree = Holds<Same<Kind, wire.Entry['kind']>>
export type KindsAreAllNamed = Holds<Same<keyof typeof KINDS, wire.Entry['kind']>>
export type EnvelopesAgree = Holds<Same<Envelope, Settled<Omit<wire.HeardEntry, 'kind' | 'body' | 'hash'>>>>

/** Kinds of two shapes are unions of both, and what may be absent may be absent. */
export type ReadingHasTwoShapes = Holds<
  Either<Bodies['reading'], Settled<wire.ReadingOfStep | wire.ReadingOfRun>>
>
export type TallyHasTwoShapes = Holds<Either<Bodies['tally'], Settled<wire.TallyState | wire.TallyMark>>>
export type HeatHasTwoShapes = Holds<Either<Bodies['heat'], Settled<wire.HeatOn | wire.HeatAct>>>
export type PointsArePairs = Holds<Same<wire.ReadingOfRun['points'][number], [number, number]>>
export type CaptionMayBeAbsent = Holds<Same<Pick<wire.PhotoBody, 'caption'>, { caption?: string }>>
