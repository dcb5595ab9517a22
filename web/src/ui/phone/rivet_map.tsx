// The fastener map of a group: its positions in a row that wraps, each by shape and name; a listbox to the hand.
import type { JSX } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import type { PositionState } from '../../core/state.ts'
import { hasDamage } from '../../core/views/tally_view.ts'
import { RivetMark, type RivetName } from '../parts/mark.tsx'
import { askWords } from '../words/en_asks.ts'
import { ladder, marks } from '../words/en_kinds.ts'

type MapProps = {
  positions: readonly PositionState[]
  picked: string
  name: string
  onPick: (position: string) => void
}

export function positionWords(at: PositionState): string {
  const damaged = hasDamage(at) ? `, ${marks.damaged_hole}` : ''
  return askWords.tally.position(at.position, ladder[at.place] + damaged)
}

/** A lost piece outranks the state, a damaged hole adds to it. */
function drawn(at: PositionState): RivetName {
  if (at.place === 'lost') return 'lost'
  return hasDamage(at) ? 'damaged_hole' : at.place
}

export function RivetMap({ positions, picked, name, onPick }: MapProps): JSX.Element {
  const list = useRef<HTMLDivElement>(null)
  useEffect(() => {
    const option = list.current?.querySelector('[aria-selected="true"]')
    option?.scrollIntoView({ block: 'nearest' })
  }, [picked])
  const keys = (event: KeyboardEvent) => {
    const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key]
    if (by === undefined) return
    event.preventDefault()
    const at = positions.findIndex((one) => one.position === picked)
    const to = positions[(at + by + positions.length) % positions.length]
    if (to) onPick(to.position)
  }
  return (
    <div
      class="rivet-map"
      role="listbox"
      tabIndex={0}
      aria-label={askWords.tally.mapName(name)}
      aria-activedescendant={`position-${picked}`}
      ref={list}
      onKeyDown={keys}
    >
      {positions.map((at) => (
        <div
          key={at.position}
          id={`position-${at.position}`}
          role="option"
          tabIndex={-1}
          aria-selected={at.position === picked}
          aria-label={positionWords(at)}
          class={`position place-${drawn(at)}`}
          onClick={() => onPick(at.position)}
          onKeyDown={keys}
        >
          <RivetMark name={drawn(at)} />
          <span>{at.position}</span>
        </div>
      ))}
    </div>
  )
}
