// The materials that the methods here name, each once, by name.
import { useOffice, useRoute } from './office_desk.ts'
import { useMethods } from './use_methods.ts'

export type Material = { readonly id: string; readonly name: string }

export function useMaterials(): readonly Material[] {
  const { desk } = useOffice()
  const { seen } = useRoute(desk.api.methods, 0, 'methods')
  const { docs } = useMethods((seen.value ?? []).map((one) => one.digest))
  const named = new Map([...docs.values()].flatMap((doc) => doc.materials.map((one) => [one.id, one.name])))
  return [...named].map(([id, name]) => ({ id, name })).sort((a, b) => a.name.localeCompare(b.name))
}
