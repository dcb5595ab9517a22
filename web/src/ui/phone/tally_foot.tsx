// The keys at the thumb: the picked position, its neighbours, the next state, and the two marks that cannot wait.
import type { JSX } from 'preact'
import type { PositionState } from '../../core/state.ts'
import { tallyMark } from '../../core/views/drafts.ts'
import type { HoleWord } from '../../core/views/holes_view.ts'
import { piecesToLose } from '../../core/views/map_view.ts'
import { takesOut } from '../../core/views/reached.ts'
import { hasDamage, isOnItsWayOut, openLost } from '../../core/views/tally_view.ts'
import { shapeOf, stateWords } from '../parts/fastener_map_words.ts'
import { HoleMark } from '../parts/hole_mark.tsx'
import { Key } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { RivetMark } from '../parts/rivet_mark.tsx'
import { holeWords } from '../words/en_holes.ts'
import { ladder } from '../words/en_kinds.ts'
import { mapWords } from '../words/en_map.ts'
import { capital } from '../words/format.ts'
import type { Tally } from './tally_acts.ts'
import type { SheetName } from './tally_sheets.tsx'

type FootProps = {
  tally: Tally
  at: PositionState
  /** What its hole allows, where holes are measured. */
  hole: HoleWord | undefined
  doneWord: string
  isWhole: boolean
  onDone: () => void
  onSheet: (sheet: SheetName) => void
}

export function TallyFoot(props: FootProps): JSX.Element {
  const { tally, at, hole, isWhole, onSheet } = props
  const asked = tally.to !== undefined || isWhole
  const isFind = isWhole && openLost(at).length > 0
  return (
    <>
      <div class="map-picked">
        <button
          type="button"
          class={`key key-plain map-position place-${shapeOf(at, tally.shownTo)}`}
          onClick={() => onSheet('facts')}
        >
          <RivetMark name={shapeOf(at, tally.shownTo)} />
          <span class="num">{at.position}</span>
          <span class="map-words">
            {stateWords(at, tally.shownTo)}
            {!asked && <small>{mapWords.notAsked}</small>}
            {hole && (
              <span class="map-row-hole">
                <HoleMark word={hole} />
                {holeWords.is[hole]}
              </span>
            )}
          </span>
          <Mark name="more" />
          <span class="unseen">{mapWords.more}</span>
        </button>
        <Key class="map-step" onPress={() => tally.step(-1)} label={mapWords.previous(tally.neighbour(-1))}>
          <Mark name="back" />
        </Key>
        <Key class="map-step" onPress={() => tally.step(1)} label={mapWords.previous(tally.neighbour(1))}>
          <Mark name="onward" />
        </Key>
      </div>
      {!isFind && <NextKey {...props} />}
      <FoundKeys {...props} isMain={isFind} />
      <Key
        tone="stop"
        pressed={hasDamage(at) ? true : undefined}
        onPress={() => (hasDamage(at) ? onSheet('facts') : void tally.write([tallyMark(at, 'damaged_hole')]))}
      >
        <span class="map-mark-key">
          <RivetMark name="damaged_hole" />
          {mapWords.damaged}
        </span>
      </Key>
      {piecesToLose(at).length > 0 && (
        <Key tone="stop" onPress={() => onSheet('lost')}>
          <span class="map-mark-key">
            <RivetMark name="lost" />
            {mapWords.lost}
          </span>
        </Key>
      )}
    </>
  )
}

/** The find closes what is lost, and a photo of it is the natural next. */
function FoundKeys({ tally, at, onSheet, isMain }: FootProps & { isMain: boolean }): JSX.Element {
  return (
    <>
      {openLost(at).map(({ hash, piece }) => (
        <Key
          key={hash}
          tone={isMain ? 'main' : 'plain'}
          class="foot-wide"
          onPress={() =>
            void tally.write([tallyMark(at, 'found', '', hash)]).then((kept) => kept && onSheet('found'))
          }
        >
          {capital(mapWords.foundOf(piece))}
        </Key>
      ))}
    </>
  )
}

function NextKey({ tally, at, doneWord, isWhole, onDone }: FootProps): JSX.Element {
  const { next, open, to } = tally
  if (next !== undefined && to !== undefined) {
    const outFirst = !takesOut(to) && isOnItsWayOut(at)
    return (
      <Key
        tone="main"
        onPress={tally.moveOn}
        label={outFirst ? undefined : mapWords.moveOn(at.position, ladder[next])}
        small={outFirst ? mapWords.outFirst : undefined}
      >
        <span class="map-next">
          <RivetMark name={next} />
          {outFirst && <span class="unseen">{`${at.position}: `}</span>}
          {capital(ladder[next])}
        </span>
      </Key>
    )
  }
  if (open !== undefined && !isWhole) {
    return (
      <Key tone="main" onPress={() => tally.pick(open.position)}>
        {mapWords.to(open.position)}
      </Key>
    )
  }
  return (
    <Key tone="main" onPress={onDone} small={isWhole ? undefined : mapWords.complete}>
      {doneWord}
    </Key>
  )
}
