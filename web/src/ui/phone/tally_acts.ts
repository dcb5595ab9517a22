// What the fastener map does: picks, moves a rivet on, marks, replaces; a glove that bounces does it once.
import { useRef, useState } from 'preact/hooks'
import type { Draft, LadderState } from '../../core/entries.ts'
import type { PositionState } from '../../core/state.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { NO_STEP, note, refOf, tallyState } from '../../core/views/drafts.ts'
import type { MapBoard } from '../../core/views/map_view.ts'
import { isReached } from '../../core/views/reached.ts'
import { generationFor, nextPosition, nextState } from '../../core/views/tally_view.ts'
import type { Drafting } from '../../store/types.ts'
import { BOUNCE_MS } from '../parts/fastener_map_press.ts'
import { usePhone } from './context.ts'
import { useStays } from './tally_stays.ts'

export type Tally = {
  readonly board: MapBoard
  readonly at: PositionState | undefined
  readonly to: LadderState | undefined
  readonly shownTo: LadderState | undefined
  /** What the main key and a tap on the picked position record. */
  readonly next: LadderState | undefined
  /** Another position that wants something in this step. */
  readonly open: PositionState | undefined
  readonly pick: (position: string) => void
  readonly step: (by: number) => void
  readonly neighbour: (by: number) => string
  /** Something has just changed: a press now is a glove that bounces. */
  readonly isDeaf: () => boolean
  readonly moveOn: () => void
  readonly state: (state: LadderState) => Promise<void>
  readonly write: (drafts: readonly Drafting[]) => Promise<boolean>
  readonly replace: (words: string) => Promise<boolean>
  /** Work one rivet through before the next one. */
  readonly stays: boolean
  readonly setStays: (stays: boolean) => void
}

export function useTally(card: Card, place: StepPlace | undefined, board: MapBoard, group: string): Tally {
  const { record } = usePhone()
  const { positions, rivets, toOf } = board
  const asked = positions.filter((one) => toOf(one) !== undefined)
  const [picked, setPicked] = useState(() => firstOf(board, group))
  const [stays, setStays] = useStays()
  const bounce = useBounce()
  const at = positions.find((one) => one.position === picked) ?? positions[0]
  const to = at && toOf(at)
  const next = at && to && nextState(at, to, rivets)
  const pick = (position: string) => {
    bounce.settle()
    setPicked(position)
  }
  const neighbour = (by: number) => {
    const index = positions.findIndex((one) => one.position === at?.position)
    return positions[(index + by + positions.length) % positions.length]?.position ?? ''
  }
  const write = async (drafts: readonly Drafting[]) => (await record(card.job, drafts)) !== undefined
  const state = async (reached: LadderState) => {
    if (at === undefined) return
    const generation = generationFor(at, to ?? board.shownTo(at) ?? reached)
    const now = { ...at, generation, state: reached }
    const isThrough = to === undefined || isReached(now, to, rivets)
    const after = positions.map((one) => (one === at ? now : one)).filter((one) => one.group === at.group)
    const moves = to !== undefined && (isThrough || !stays)
    // Picked before it is kept: the key must not name this rivet's next state for a moment in between.
    if (moves) pick(nextPosition(after, at.position, to, { same: reached, rivets }))
    const kept = await write([tallyState({ position: at.position, generation }, reached)])
    if (!kept) pick(at.position)
    else if (!moves) bounce.settle()
  }
  const replace = (words: string) => {
    if (at === undefined) return Promise.resolve(false)
    const ref = place ? refOf(place) : NO_STEP
    const about = ([made]: readonly { hash: string }[]): Draft => {
      const draft = note(ref, words)
      return { kind: 'note', body: { ...draft.body, about: made ? [made.hash] : [] } } as Draft
    }
    return write([tallyState(at, 'shank_out'), about])
  }
  return {
    board,
    at,
    to,
    shownTo: at && board.shownTo(at),
    next,
    open: asked.find((one) => one.position === openAfter(board, asked, at)),
    pick,
    step: (by) => pick(neighbour(by)),
    neighbour,
    isDeaf: bounce.isDeaf,
    moveOn: () => {
      if (next !== undefined) bounce.guard(() => void state(next))
    },
    state,
    write,
    replace,
    stays,
    setStays,
  }
}

/** The first that is not there yet, of the group that the step was opened at. */
function firstOf({ positions, toOf, rivets }: MapBoard, group: string): string {
  const own = positions.filter((one) => one.group === group)
  const to = own[0] && toOf(own[0])
  if (to === undefined) {
    const lost = positions.find((one) => one.place === 'lost')
    return (lost ?? positions[0])?.position ?? ''
  }
  return nextPosition(own, own.at(-1)?.position ?? '', to, { rivets })
}

/** Another open position: of this group first, then of what else the step asks. */
function openAfter(
  { toOf, rivets }: MapBoard,
  asked: readonly PositionState[],
  at: PositionState | undefined,
): string | undefined {
  const from = at ? asked.indexOf(at) : -1
  const after = [...asked.slice(from + 1), ...asked.slice(0, Math.max(from, 0))]
  const open = after.filter((one) => {
    const to = toOf(one)
    return to !== undefined && !isReached(one, to, rivets)
  })
  return (open.find((one) => one.group === at?.group) ?? open[0])?.position
}

type Bounce = {
  readonly isDeaf: () => boolean
  readonly settle: () => void
  readonly guard: (act: () => void) => void
}

/** After a change keys are deaf for a moment; the frame says so, as it does when an act changes. */
function useBounce(): Bounce {
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined)
  const settle = () => {
    const frame = document.querySelector<HTMLElement>('.frame')
    clearTimeout(timer.current)
    if (frame) frame.dataset.settling = 'yes'
    timer.current = setTimeout(() => {
      timer.current = undefined
      delete frame?.dataset.settling
    }, BOUNCE_MS)
  }
  const isDeaf = () => timer.current !== undefined
  const guard = (act: () => void) => {
    if (isDeaf()) return
    settle()
    act()
  }
  return { isDeaf, settle, guard }
}
