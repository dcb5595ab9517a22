// The map in words: what is lost, the same as a list, rows where there is no drawing, and the pieces owed.
import type { JSX } from 'preact'
import type { PositionState } from '../../core/state.ts'
import type { Card } from '../../core/views/card.ts'
import type { HoleView } from '../../core/views/holes_view.ts'
import { lostPieces } from '../../core/views/lost_pieces.ts'
import type { MapBoard } from '../../core/views/map_view.ts'
import { PIECES } from '../../core/views/tally_view.ts'
import { optionId } from '../parts/fastener_map.tsx'
import { reportKey } from '../parts/fastener_map_press.ts'
import { positionWords, shapeOf, stateWords } from '../parts/fastener_map_words.ts'
import { HoleMark } from '../parts/hole_mark.tsx'
import { Key } from '../parts/key.tsx'
import { RivetMark } from '../parts/rivet_mark.tsx'
import { holeWords } from '../words/en_holes.ts'
import { mapWords } from '../words/en_map.ts'
import type { Tally } from './tally_acts.ts'

type LostProps = { card: Card; picked: string; onPick: (position: string) => void }

/** Stays in view on every map until each piece is found; a press goes to the next of them. */
export function TallyLost({ card, picked, onPick }: LostProps): JSX.Element | null {
  const lost = lostPieces(card)
  const after = lost.findIndex((one) => one.position === picked) + 1
  const next = lost[after % lost.length]
  const only = lost.length === 1 ? lost[0] : undefined
  if (next === undefined) return null
  return (
    <Key
      tone="stop"
      class="map-lost"
      onPress={() => onPick(next.position)}
      label={lost.map(({ position, piece }) => mapWords.lostAt(position, piece)).join('; ')}
    >
      <span class="map-mark-key">
        <RivetMark name="lost" />
        {only ? mapWords.lostShort(only.position, only.piece) : mapWords.lostMany(lost.length)}
      </span>
    </Key>
  )
}

type ListProps = {
  board: MapBoard
  holes: readonly HoleView[]
  picked: string
  onPick: (position: string) => void
}

/** Every position, also those that the drawing lacks. */
export function TallyList({ board, holes, picked, onPick }: ListProps): JSX.Element {
  return (
    <details class="map-list">
      <summary class="key key-plain">{mapWords.list}</summary>
      <ul>
        {board.positions.map((at) => (
          <li key={at.position}>
            <button
              type="button"
              class={`map-row place-${shapeOf(at, board.shownTo(at))}`}
              aria-pressed={at.position === picked}
              onClick={() => onPick(at.position)}
            >
              <RivetMark name={shapeOf(at, board.shownTo(at))} />
              <strong>{at.position}</strong>
              <span>{stateWords(at, board.shownTo(at))}</span>
              <ListHole hole={holeOf(holes, at)} />
            </button>
          </li>
        ))}
      </ul>
    </details>
  )
}

function holeOf(holes: readonly HoleView[], at: PositionState): HoleView | undefined {
  return holes.find(({ position }) => position === at.position)
}

function holeSaid(hole: HoleView | undefined): readonly string[] {
  return hole === undefined ? [] : [holeWords.is[hole.word]]
}

function ListHole({ hole }: { hole: HoleView | undefined }): JSX.Element | null {
  if (hole === undefined) return null
  return (
    <span class="map-row-hole">
      <HoleMark word={hole.word} />
      {holeWords.is[hole.word]}
    </span>
  )
}

type RowsProps = {
  board: MapBoard
  holes: readonly HoleView[]
  tally: Tally
  name: string
  isWhole: boolean
  onMarks: (position: string) => void
}

/** Where a method has no drawing: its positions in rows, with the same taps and keys. */
export function TallyRows({ board, holes, tally, name, isWhole, onMarks }: RowsProps): JSX.Element {
  const shown = isWhole ? board.positions : board.positions.filter((at) => board.toOf(at) !== undefined)
  const picked = tally.at?.position ?? ''
  const press = (at: PositionState) => (at.position === picked ? tally.moveOn() : tally.pick(at.position))
  const keys = (event: KeyboardEvent) => {
    const ids = shown.map((one) => one.position)
    const to = { onPick: tally.pick, onMoveOn: tally.moveOn, onMarks, zoomBy: () => {} }
    if (reportKey(event, ids, picked, to)) event.preventDefault()
  }
  return (
    <div
      class="rivet-map"
      role="listbox"
      tabIndex={0}
      aria-label={mapWords.mapName(name)}
      aria-activedescendant={optionId(picked)}
      onKeyDown={keys}
    >
      {shown.map((at) => (
        <div
          key={at.position}
          id={optionId(at.position)}
          role="option"
          tabIndex={-1}
          aria-selected={at.position === picked}
          aria-label={[positionWords(at, board.shownTo(at)), ...holeSaid(holeOf(holes, at))].join(', ')}
          class={`position place-${shapeOf(at, board.shownTo(at))}`}
          onClick={() => press(at)}
          onKeyDown={keys}
        >
          <RivetMark name={shapeOf(at, board.shownTo(at))} />
          <span>{at.position}</span>
          <ListHole hole={holeOf(holes, at)} />
        </div>
      ))}
    </div>
  )
}

/** What the rivets taken out so far owe, kind by kind, and what of it is lost. */
export function TallyPieces({ card }: { card: Card }): JSX.Element | null {
  const { owed, lost } = card.state.pieces
  if (owed.shank === 0 && PIECES.every((piece) => lost[piece] === 0)) return null
  return (
    <section class="map-pieces">
      <h2 class="label">{mapWords.pieces}</h2>
      <ul>
        {PIECES.map((piece) => (
          <li key={piece} class={lost[piece] > 0 ? 'in-stop' : ''}>
            {mapWords.piecesLine(owed[piece], lost[piece], mapWords.piecesOf[piece])}
          </li>
        ))}
      </ul>
    </section>
  )
}
