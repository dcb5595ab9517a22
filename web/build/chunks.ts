// Which modules share a file: all that a phone's first page needs is one, and what the office needs of it another.
import type { Rolldown } from 'vite'

type Group = Rolldown.CodeSplittingGroup
type Graph = { getModuleInfo(id: string): { readonly importedIds: readonly string[] } | null }

/** `entry` and all that it imports at once, without what is fetched later. */
function reached(graph: Graph, entry: string): ReadonlySet<string> {
  const found = new Set<string>()
  const visit = (id: string) => {
    if (found.has(id)) return
    found.add(id)
    for (const next of graph.getModuleInfo(id)?.importedIds ?? []) visit(next)
  }
  visit(entry)
  return found
}

/** Many small files gzip worse than one: each begins with an empty dictionary. */
export function fewFiles(entries: { page: string; phone: string; office: string }): Group {
  let sets: Record<keyof typeof entries, ReadonlySet<string>> | undefined
  return {
    includeDependenciesRecursively: false,
    name: (id, graph) => {
      sets ??= {
        page: reached(graph, entries.page),
        phone: reached(graph, entries.phone),
        office: reached(graph, entries.office),
      }
      if (sets.page.has(id) || !sets.phone.has(id)) return null
      return sets.office.has(id) ? 'shared' : 'phone'
    },
  }
}
