// The routes of heat zones, their plans and the pins of plans to jobs, as the office asks them.
import type { Json } from '../core/canonical.ts'
import type { PlanAnswer } from '../core/views/office_heat_answer.ts'
import type { FieldFile } from '../core/views/office_heat_field.ts'
import { type Answer, mapAnswer } from './answer.ts'
import { path, type Transport } from './transport.ts'

export type PlanState = 'none' | 'waiting' | 'running' | 'done' | 'failed' | 'cancelled'

export type HeatZoneRow = {
  readonly digest: string
  readonly id: string
  readonly name: string
  readonly invented: boolean
  readonly added_ms: number
  readonly by: string
  readonly state: PlanState
  readonly sentence: string
  /** Jobs that a plan of this zone is pinned to. */
  readonly jobs: readonly string[]
}
/** `share` runs from 0 to 1, `doing` names what is computed. */
export type PlanNews = {
  readonly state: PlanState
  readonly doing: string
  readonly share: number
  readonly sentence: string
  /** False where an older model of this program has planned it. */
  readonly current: boolean
}
export type HeatZone = {
  readonly digest: string
  readonly text: string
  readonly document: Json
  /** What the document leaves out and what is taken for it. */
  readonly remarks: readonly string[]
  readonly plan: PlanNews
}
export type HeatPlan = PlanNews & {
  readonly answer?: PlanAnswer
  readonly faults: readonly { readonly field: string; readonly mend: string }[]
}
export type PinOf = { readonly method: string; readonly zone: string; readonly plan: string }
/** A file as it was written, or a document as it was edited. */
export type NewZone = { readonly text: string } | { readonly document: Json }
export type ZoneTaken = { readonly digest: string; readonly known: boolean }

export function heat(transport: Transport) {
  return {
    heatZones: async (): Promise<Answer<readonly HeatZoneRow[]>> =>
      mapAnswer(
        await transport.get<{ zones: readonly HeatZoneRow[] }>('/api/heat/zones'),
        (found) => found.zones,
      ),
    heatZone: (digest: string) => transport.get<HeatZone>(path('heat', 'zones', digest)),
    addHeatZone: (zone: NewZone, signal?: AbortSignal) =>
      transport.post<ZoneTaken>('/api/heat/zones', zone, signal),
    removeHeatZone: (digest: string) => transport.remove(path('heat', 'zones', digest)),
    planHeat: (zone: string) => transport.post<HeatPlan>('/api/heat/plans', { zone }),
    heatPlan: (digest: string) => transport.get<HeatPlan>(path('heat', 'plans', digest)),
    cancelPlan: (digest: string) => transport.remove(path('heat', 'plans', digest)),
    heatField: (digest: string) => transport.get<FieldFile>(path('heat', 'plans', digest, 'field')),
    pinHeat: (job: string, pin: PinOf) => transport.post<unknown>(path('jobs', job, 'heat_plans'), pin),
    unpinHeat: (job: string, { method, zone }: Omit<PinOf, 'plan'>) =>
      transport.remove(path('jobs', job, 'heat_plans', method, zone)),
  }
}
