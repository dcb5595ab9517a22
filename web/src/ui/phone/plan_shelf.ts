// The pinned plans of every job on this phone, with their response sets read; fetched after the first page stands.
import type { ResponseDoc } from '../../core/live/response_set.ts'
import { type CardPlan, readSet } from '../../core/views/card_plans.ts'
import type { PlanRow, Store } from '../../store/types.ts'

export type PlanShelf = ReadonlyMap<string, readonly CardPlan[]>

type Kept = { key: string; shelf: PlanShelf; readonly sets: Map<string, ResponseDoc | undefined> }

const shelves = new WeakMap<Store, Kept>()

/** By job. The same object as before while nothing changed. */
export async function plansOf(store: Store): Promise<PlanShelf> {
  const kept = shelves.get(store) ?? { key: '', shelf: new Map(), sets: new Map() }
  shelves.set(store, kept)
  const rows = await store.plans()
  const key = JSON.stringify(rows)
  if (key === kept.key) return kept.shelf
  const plans = await Promise.all(
    rows.map(async (row) => ({ job: row.job, plan: await planOf(store, kept, row) })),
  )
  kept.key = key
  kept.shelf = new Map(
    [...new Set(rows.map(({ job }) => job))].map((job) => [
      job,
      plans.filter((one) => one.job === job).map(({ plan }) => plan),
    ]),
  )
  return kept.shelf
}

async function planOf(store: Store, { sets }: Kept, row: PlanRow): Promise<CardPlan> {
  const { method, zone, plan, sha256, name, sentence, here, figures } = row
  if (here && !sets.has(sha256)) {
    const text = await store.planSet(sha256)
    if (text !== undefined) sets.set(sha256, readSet(text))
  }
  const set = sets.get(sha256)
  return {
    ...{ method, zone, plan, sha256, name, sentence, here },
    ...(figures === undefined ? {} : { figures }),
    ...(set === undefined ? {} : { set }),
  }
}
