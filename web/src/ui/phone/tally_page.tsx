// The page of the fastener map: window and count, what is lost, the same as a list, and the keys at the thumb.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { PositionState } from '../../core/state.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { besideHoles } from '../../core/views/hole_neighbours.ts'
import { drawnHoles } from '../../core/views/holes_view.ts'
import { boardOf, groupName, type MapBoard } from '../../core/views/map_view.ts'
import {
  countsShown,
  hasDamage,
  isToAccountFor,
  openLost,
  type TallyView,
} from '../../core/views/tally_view.ts'
import { ZOOM_STEP } from '../parts/fastener_map_press.ts'
import { mapRivet } from '../parts/fastener_map_words.ts'
import { HoleLegend } from '../parts/hole_legend.tsx'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { Mark } from '../parts/mark.tsx'
import { mapWords } from '../words/en_map.ts'
import { capital } from '../words/format.ts'
import { BondBand } from './bond_band.tsx'
import { Frame } from './frame.tsx'
import { RivetMap, type Room, roomOf } from './rivet_map.tsx'
import { useDrawing } from './rivet_map_drawing.ts'
import { useMapWindow } from './rivet_map_window.ts'
import { useTally } from './tally_acts.ts'
import { countLines, TallyCount } from './tally_count.tsx'
import { TallyFoot } from './tally_foot.tsx'
import { TallyList, TallyLost, TallyPieces, TallyRows } from './tally_list.tsx'
import { PositionSheet, type SheetName } from './tally_sheets.tsx'
import './tally.css'

type PageProps = {
  card: Card
  /** Undefined on the map of the whole job. */
  place: StepPlace | undefined
  group: string
  back: string
  title: string
  doneWord: string
  onDone: () => void
}

export function TallyPage(props: PageProps): JSX.Element | null {
  const { card, place, back, title } = props
  const board = boardOf(card, place)
  const tally = useTally(card, place, board, props.group)
  const [sheet, setSheet] = useState<SheetName | ''>('')
  const shown = useMapWindow({ map: board.drawing?.map, picked: tally.at?.position ?? '' })
  const src = useDrawing(board.drawing?.sha256)
  const { at } = tally
  if (at === undefined) return null
  const open = (position: string, name: SheetName = 'facts') => {
    tally.pick(position)
    setSheet(name)
  }
  const count = countOf(board, place === undefined ? undefined : at.group)
  const name = place === undefined ? title : capital(groupName(board, at.group))
  const whole = wholeWords(board)
  const counted = <TallyCount tally={count} name={name} whole={whole} />
  const holes = drawnHoles(card)
  const beside = board.drawing ? besideHoles(card.state.positions, board.drawing.map, holes) : []
  const room = board.drawing && roomOf(board.drawing.map, shown)
  const isIn = room !== undefined && hasRoom(room, countLines(count) + (whole ? 1 : 0))
  return (
    <Frame
      act={`${card.job}/${place?.step.id}/${place ? props.group : 'map'}`}
      card={card}
      place={place}
      back={back}
      foot={
        <TallyFoot
          tally={tally}
          at={at}
          hole={holes.find(({ position }) => position === at.position)?.word}
          doneWord={props.doneWord}
          isWhole={place === undefined}
          onDone={props.onDone}
          onSheet={(one) => open(at.position, one)}
        />
      }
    >
      <BondBand card={card} warnsOnly />
      <Leaf plain>
        <header class="map-head">
          <div>
            <h1 class="map-title" tabIndex={-1}>
              {name}
            </h1>
            <p class="label">{mapWords.leftIn(count.left, count.positions.length)}</p>
          </div>
          <TallyLost card={card} picked={at.position} onPick={tally.pick} />
          {board.drawing && (
            <>
              <Key onPress={() => shown.zoomBy(1 / ZOOM_STEP)} label={mapWords.farther}>
                <Mark name="farther" />
              </Key>
              <Key onPress={() => shown.zoomBy(ZOOM_STEP)} label={mapWords.closer}>
                <Mark name="closer" />
              </Key>
            </>
          )}
        </header>
        {board.drawing ? (
          <RivetMap
            drawing={board.drawing}
            src={src}
            shown={shown}
            rivets={board.positions.map((one) =>
              mapRivet(
                one,
                board.shownTo(one),
                board.toOf(one) === undefined && place !== undefined,
                beside,
                holes,
              ),
            )}
            beside={beside}
            picked={at.position}
            isDeaf={tally.isDeaf}
            name={mapWords.mapName(name)}
            zoomBy={shown.zoomBy}
            onPick={tally.pick}
            onMoveOn={() => tally.moveOn()}
            onMarks={(position) => open(position)}
            room={isIn ? room : undefined}
            inside={counted}
          />
        ) : (
          <TallyRows
            board={board}
            holes={holes}
            tally={tally}
            name={name}
            isWhole={place === undefined}
            onMarks={open}
          />
        )}
        {!isIn && counted}
        {holes.length > 0 && <HoleLegend holes={holes} />}
        {board.drawing && <TallyList board={board} holes={holes} picked={at.position} onPick={tally.pick} />}
        <TallyPieces card={card} />
      </Leaf>
      {sheet !== '' && (
        <PositionSheet
          key={at.position}
          card={card}
          place={place}
          at={at}
          tally={tally}
          start={sheet}
          onClose={() => setSheet('')}
        />
      )}
    </Frame>
  )
}

const COUNT_W = 172
const COUNT_HEAD_H = 96
const COUNT_LINE_H = 24

function hasRoom(room: Room, lines: number): boolean {
  return room.w_px >= COUNT_W && room.h_px >= COUNT_HEAD_H + COUNT_LINE_H * lines
}

/** Of a group what its step asks; of the whole job the positions where a piece is lost. */
function countOf({ positions, toOf, shownTo, rivets }: MapBoard, group: string | undefined): TallyView {
  const own = positions.filter((at) => group === undefined || at.group === group)
  const isLeft = (at: PositionState) => {
    const to = toOf(at)
    return to === undefined ? openLost(at).length > 0 : isToAccountFor(at, to, rivets)
  }
  return {
    positions: own,
    left: own.filter(isLeft).length,
    counts: countsShown(own, shownTo),
    damaged: own.filter(hasDamage).length,
  }
}

/** All that this step asks for, where it is more than one group. */
function wholeWords(board: MapBoard): string | undefined {
  const asked = board.positions.filter((at) => board.toOf(at) !== undefined)
  if (new Set(asked.map((at) => at.group)).size < 2) return undefined
  const { left } = countOf({ ...board, positions: asked }, undefined)
  return mapWords.whole(left, asked.length)
}
