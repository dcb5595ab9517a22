// The fastener map and the count of rivets of one job, and what its holes allow.
import type { JSX } from 'preact'
import { useMemo } from 'preact/hooks'
import type { CardState, PositionState } from '../../core/state.ts'
import { besideHoles } from '../../core/views/hole_neighbours.ts'
import { drawnHoles, type HoleView } from '../../core/views/holes_view.ts'
import type { JobLog } from '../../core/views/office_log.ts'
import { officeCard } from '../../core/views/office_run_card.ts'
import type { GroupTally, TallyView } from '../../core/views/office_tally.ts'
import { drawingUrl } from '../../office_api/client.ts'
import { FastenerPicture } from '../parts/fastener_map_picture.tsx'
import { mapRivet } from '../parts/fastener_map_words.ts'
import { HoleLegend } from '../parts/hole_legend.tsx'
import { HoleMark } from '../parts/hole_mark.tsx'
import { decisionWords } from '../parts/hole_words.ts'
import { RivetMark } from '../parts/rivet_mark.tsx'
import { holeWords } from '../words/en_holes.ts'
import { ladder, marks } from '../words/en_kinds.ts'
import { listed } from '../words/format.ts'
import { o } from '../words/office_en.ts'

export function JobTally(props: { tally: TallyView; log: JobLog; state: CardState }): JSX.Element {
  const { tally, log, state } = props
  const { owed } = tally
  const positions = tally.groups.flatMap((group) => group.positions)
  const holes = useMemo(() => drawnHoles(officeCard(log, state)), [log, state])
  const beside = tally.drawing ? besideHoles(positions, tally.drawing.map, holes) : []
  return (
    <section class="o-part" aria-label={o.job.tally}>
      <div class="o-part-head">
        <h2>{o.job.tally}</h2>
        <small>{o.job.tallyTotal(tally.total)}</small>
      </div>
      {tally.total === 0 ? <p class="soft">{o.job.noTally}</p> : <ToAccount n={tally.toAccountFor} />}
      {tally.drawing && (
        <FastenerPicture
          map={tally.drawing.map}
          src={drawingUrl(tally.drawing.sha256)}
          rivets={positions.map((at) => mapRivet(at, undefined, false, beside, holes))}
          beside={beside}
          name={o.job.tally}
          width_px={MAP_PX}
        />
      )}
      {holes.length > 0 && <HoleLegend holes={holes} />}
      <HoleList holes={holes} />
      {tally.groups.map((group) => (
        <Group key={group.group} group={group} shown={namesDrawn(tally)} />
      ))}
      {owed.head + owed.mandrel + owed.shank > 0 && <p>{o.job.owed(owed.head, owed.mandrel, owed.shank)}</p>}
      {tally.damagedHoles.length > 0 && <p class="in-stop">{o.job.damaged(listed(tally.damagedHoles))}</p>}
    </section>
  )
}

/** In words and figures, those that are not used as they are. */
function HoleList({ holes }: { holes: readonly HoleView[] }): JSX.Element | null {
  const told = holes.filter(({ word }) => word !== 'used' && word !== 'not_read')
  if (told.length === 0) return null
  return (
    <ul class="o-holes">
      {told.map((hole) => (
        <li key={hole.position}>
          <HoleMark word={hole.word} />
          <strong>{hole.position}</strong>
          <span>
            {decisionWords(hole)}
            {hole.neighbours.length > 0 && `; ${holeWords.checkedAgain(listed(hole.neighbours))}`}
            {hole.wantsRoom && `; ${holeWords.notYetRead}`}
          </span>
        </li>
      ))}
    </ul>
  )
}

function ToAccount({ n }: { n: number }): JSX.Element {
  if (n === 0) return <p>{o.job.allAccounted}</p>
  return (
    <p class="in-stop">
      <strong class="o-big num">{n}</strong> {o.job.toAccount}
    </p>
  )
}

const MAP_PX = 440

/** Positions that the map shows; the others stand in rows. */
function namesDrawn({ drawing }: TallyView): ReadonlySet<string> {
  return new Set(drawing?.map.places.map((place) => place.id))
}

type GroupProps = { group: GroupTally; shown: ReadonlySet<string> }

function Group({ group, shown }: GroupProps): JSX.Element {
  const rest = group.positions.filter((one) => !shown.has(one.position))
  const counts = group.counts.map((one) => o.job.inPlace(one.count, ladder[one.place]))
  return (
    <div class="o-group">
      <p>
        <strong>{group.name}</strong>: {listed(counts)}
      </p>
      {rest.length > 0 && (
        <ul class="o-rivets">
          {rest.map((position) => (
            <Rivet key={position.position} position={position} />
          ))}
        </ul>
      )}
    </div>
  )
}

function Rivet({ position }: { position: PositionState }): JSX.Element {
  const damaged = position.place !== 'lost' && position.marks.some((mark) => mark.mark === 'damaged_hole')
  return (
    <li class={position.place === 'lost' || damaged ? 'in-stop' : ''}>
      <RivetMark name={damaged ? 'damaged_hole' : position.place} />
      <strong>{position.position}</strong>
      <small>{damaged ? marks.damaged_hole : ladder[position.place]}</small>
    </li>
  )
}
