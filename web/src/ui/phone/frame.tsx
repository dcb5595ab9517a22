// The frame of every phone page: folio with its five answers, what calls from elsewhere, leaf and foot.
import type { ComponentChildren, JSX } from 'preact'
import { useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { type SafetyView, safetyOf } from '../../core/views/glance_view.ts'
import { jobViewOf } from '../../core/views/job_view.ts'
import type { SyncState } from '../../sync/types.ts'
import { Folio, type Glance, GlanceLine } from '../parts/folio.tsx'
import { Page } from '../parts/leaf.tsx'
import type { Graduation } from '../parts/steel_rule.tsx'
import { w } from '../words/en.ts'
import { capital, quantity } from '../words/format.ts'
import { partWords } from '../words/names.ts'
import { usePhone } from './context.ts'
import { laterPart } from './later_part.tsx'
import { path, paths, restoreScroll, toTop } from './router.ts'
import { whenDrawn } from './when_drawn.ts'
import { DueBand } from './while_hot.tsx'

const ConditionsSheet = laterPart(async () => (await import('./conditions_sheet.tsx')).ConditionsSheet)
const TroubleBand = laterPart(async () => (await import('./trouble_band.tsx')).TroubleBand)
const RecordsSheet = laterPart(async () => (await import('./sheets.tsx')).RecordsSheet)

const GLANCE_LENGTH = 40

/** After an act changes, keys are deaf for this long: a glove bounces. */
export const DEAF_MS = 400

type FrameProps = {
  /** Changes with the act: keys go deaf for a moment and the focus goes to the heading. */
  act: string
  card?: Card | undefined
  place?: StepPlace | undefined
  back?: string | undefined
  what?: string | undefined
  foot?: ComponentChildren
  due?: boolean
  /** On top of the page that was left as it is: what could not be kept. */
  over?: boolean
  children: ComponentChildren
}

export function Frame(props: FrameProps): JSX.Element {
  const [sheet, setSheet] = useState<'' | 'conditions' | 'records'>('')
  const frame = useSettling(props.act)
  const { card, place } = props
  const { unsaved, services } = usePhone()
  // What was typed stays: the page is only out of sight while another lies over it.
  const away = unsaved.value !== undefined && !props.over
  return (
    <div ref={frame} class={away ? 'frame-away' : 'frame'} hidden={away}>
      <Page
        due={props.due ?? false}
        foot={props.foot}
        folio={
          <Folio
            back={props.back}
            job={card && jobViewOf(card).order}
            who={useWorker()}
            what={props.what ?? whatWords(card, place)}
            step={card && place && { at: place.number, of: card.steps.length }}
            rule={card && place && graduations(card, place)}
            invented={card ? jobViewOf(card).invented : services.demo}
            glance={
              <Glancing
                card={card}
                onConditions={() => setSheet('conditions')}
                onRecords={() => setSheet('records')}
              />
            }
          />
        }
      >
        {!props.due && <DueBand />}
        <Bands card={card} />
        {props.children}
      </Page>
      {sheet === 'conditions' && <ConditionsSheet card={card} onClose={() => setSheet('')} />}
      {sheet === 'records' && <RecordsSheet onClose={() => setSheet('')} />}
    </div>
  )
}

/** The part on the page of the next act; on any other what is next. */
function whatWords(card: Card | undefined, place: StepPlace | undefined): string {
  if (card === undefined) return ''
  const job = jobViewOf(card)
  const next = job.next?.place
  if (next === undefined || (next.method.id === place?.method.id && next.step.id === place.step.id))
    return partWords(job)
  return w.phone.glance.next(next.number, next.step.title)
}

const QUIET: readonly SyncState[] = ['idle', 'syncing', 'offline', 'refused', 'not_paired']

/** Who works now, on a phone that several people share. */
function useWorker(): { name: string; href: string } | undefined {
  const { isShared, me, people } = usePhone()
  const name = isShared() ? people.value.find((one) => one.id === me().by)?.name : undefined
  return name === undefined ? undefined : { name, href: paths.who }
}

function Bands({ card }: { card: Card | undefined }): JSX.Element | null {
  const { services, unsaved } = usePhone()
  const { state, unknownMet, onThisPhone } = services.sync.status.value
  const health = unsaved.value ? 'ok' : services.store.health.value // the page of what was not saved says it itself
  const unknown = card === undefined ? unknownMet : card.state.unknown.length > 0
  if (QUIET.includes(state) && health === 'ok' && !unknown) return null
  return (
    <TroubleBand
      state={state}
      health={health}
      unknownMet={unknown}
      waiting={onThisPhone.entries + onThisPhone.photos}
      onStartAnew={services.startAnew}
    />
  )
}

function graduations(card: Card, here: StepPlace): readonly Graduation[] {
  return card.steps.map((place) => ({
    done: place.state.done !== '',
    hold: place.step.hold,
    here: place === here,
    stageStart: place.stage.starts,
  }))
}

/** Deaf keys for a moment, focus to the new heading, and the page where it was read. */
function useSettling(act: string) {
  const frame = useRef<HTMLDivElement>(null)
  const at = useRef('')
  const here = path.value
  useLayoutEffect(() => {
    const shown = frame.current
    if (shown === null) return
    // Only the next act slides in; a page that is opened stands at once.
    const isNext = at.current === here
    shown.dataset.settling = isNext ? 'next' : 'page'
    const before = document.activeElement
    const stopFocus = whenDrawn(() => {
      // A field of the page that took the focus meanwhile keeps it.
      const { activeElement } = document
      if (activeElement === before || activeElement === document.body)
        shown.querySelector('h1')?.focus({ preventScroll: true })
    })
    const deaf = (event: Event) => {
      // A digit commits nothing and can be erased; one that is lost turns 152 into 52 without a word.
      if (event.target instanceof Element && event.target.closest('.pad')) return
      event.stopPropagation()
      event.preventDefault()
    }
    shown.addEventListener('click', deaf, true)
    const hear = () => {
      delete shown.dataset.settling
      shown.removeEventListener('click', deaf, true)
    }
    const timer = setTimeout(hear, DEAF_MS)
    return () => {
      stopFocus()
      clearTimeout(timer)
      hear()
    }
  }, [act])
  useLayoutEffect(() => {
    if (at.current === here) toTop()
    else restoreScroll()
    at.current = here
  }, [act, here])
  return frame
}

type GlancingProps = { card: Card | undefined; onConditions: () => void; onRecords: () => void }

/** By itself: what the sync says changes more often than the page. */
function Glancing({ card, ...taps }: GlancingProps): JSX.Element {
  return <GlanceLine glance={useGlance(card)} {...taps} />
}

function useGlance(card: Card | undefined): Glance {
  const { cards, services } = usePhone()
  const { onThisPhone, uncounted = false, refused, heard_ms } = services.sync.status.value
  const waiting = onThisPhone.entries + onThisPhone.photos
  const all = card ? [card] : [...cards.value.values()]
  const safety = all.map(safetyOf)
  const hot = safety.find((one) => one.hot)
  const gone = safety.find((one) => one.conditions.some((condition) => condition.gone))
  const atOffice = heard_ms > 0 || cards.value.size > 0
  return {
    safety: safetyWords(gone ?? hot ?? safety[0]),
    hot: hot !== undefined,
    stop: gone !== undefined,
    records: uncounted
      ? w.phone.glance.counting
      : refused > 0
        ? w.phone.glance.mustSee(refused)
        : waiting > 0
          ? w.phone.glance.onPhone(waiting)
          : atOffice
            ? w.phone.glance.allAtOffice
            : w.phone.glance.nothingYet,
    office: waiting === 0 && refused === 0 && !uncounted,
  }
}

/** 'Pads hot, 186 °C; locked and dead, on stands': all that holds, heat first. */
export function safetyWords(safety: SafetyView | undefined): string {
  if (safety === undefined) return w.phone.glance.none
  const { hot, temperature } = safety
  const heat = !hot
    ? w.phone.glance.none
    : temperature === undefined
      ? w.phone.glance.hot
      : w.phone.glance.hotOf(quantity(temperature.value, temperature.decimals, temperature.unit))
  const gone = safety.conditions.filter((one) => one.gone).map((one) => w.phone.glance.gone(one.name))
  const standing = safety.conditions.filter((one) => one.on && !one.by_heat).map((one) => lower(one.name))
  const lost = safety.lost.length > 0 ? [w.phone.glance.lost(safety.lost)] : []
  const others = gone.length > 0 ? [] : fewer(standing)
  return capital([...gone, heat, ...lost, ...others].join(', '))
}

/** The line is always in view: it names the first that hold, and counts the others; the sheet names all. */
function fewer(names: readonly string[]): readonly string[] {
  const lengths = names.map((_, i) => names.slice(0, i + 1).join(', ').length)
  const fit = Math.max(1, lengths.filter((length) => length <= GLANCE_LENGTH).length)
  return names.length <= fit ? names : [...names.slice(0, fit), w.phone.glance.more(names.length - fit)]
}

/** Within a line; an abbreviation keeps its capitals. */
function lower(name: string): string {
  return /^[A-Z][a-z]/.test(name) ? name.slice(0, 1).toLowerCase() + name.slice(1) : name
}
