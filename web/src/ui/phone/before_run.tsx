// Before switch-on: the zone as it is set up, the checks that lead here, the alarm tested by ear; then 'Switch on'.
import type { JSX } from 'preact'
import type { HeatRunAsk, HeatSettings, PadDoc } from '../../core/method.ts'
import { placeOf, type StepPlace } from '../../core/views/card.ts'
import { planFor } from '../../core/views/card_plans.ts'
import { heatOn } from '../../core/views/drafts.ts'
import { checksOf, openChecks } from '../../core/views/run_checks.ts'
import { isHot, standingOf } from '../../core/views/statuses.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Caution, Facts, Leaf } from '../parts/leaf.tsx'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { heatWords } from '../words/en_heat.ts'
import { runWords } from '../words/en_run.ts'
import { capital, duration, quantity } from '../words/format.ts'
import { AlarmTest, Armed } from './armed.tsx'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { laterPart } from './later_part.tsx'
import { go, paths } from './router.ts'
import { pathOf, RunChecks } from './run_checks.tsx'
import { ZoneSetup } from './run_pads.tsx'
import type { AskProps } from './text_screens.tsx'
import './run.css'

const PlanBefore = laterPart(async () => (await import('./run_parts.tsx')).PlanBefore)

type BeforeProps = AskProps<HeatRunAsk> & { onGo: (path: string) => void }

export function BeforeRun({ card, place, ask, onGo }: BeforeProps): JSX.Element {
  const { record, services } = usePhone()
  const zone = place.method.zones.find((one) => one.id === ask.zone)
  const held = standingOf(card, place).heldBy
  const checks = checksOf(card, place)
  const open = openChecks(checks)
  const hot = card.state.runs.filter((run) => run.zone === ask.zone && isHot(run))
  const first = open[0]
  const plan = planFor(card.plans, place.method.id, ask.zone)
  const switchOn = async () => {
    if (held) return onGo(first ? pathOf(card, first) : paths.step(card.job, held.method.id, held.step.id))
    void services.device.wakeLock.hold()
    const made = await record(card.job, [heatOn(place, ask, plan?.sha256)])
    if (made?.[0]) go(paths.run(card.job, made[0].hash), 'replace')
  }
  const { caution } = place.step
  return (
    <Frame
      act={`${card.job}/${place.step.id}/${ask.id}/before`}
      card={card}
      place={place}
      back={paths.step(card.job, place.method.id, place.step.id)}
      foot={
        <>
          {!held && caution !== '' && <FootCaution words={caution} />}
          <Key
            tone="main"
            mark={held ? 'held' : 'hot'}
            held={held !== undefined}
            onPress={() => void switchOn()}
            small={held ? heldBy(open.length, held) : runWords.switchOnSmall}
          >
            {runWords.switchOn}
          </Key>
          <AlarmTest />
          <KeyLink href={paths.write(card.job, place.method.id, place.step.id, 'deviation')}>
            {w.card.deviation}
          </KeyLink>
        </>
      }
    >
      <Leaf plain>
        <p class="stage">{capital(heatWords.title(zone?.name ?? ask.zone))}</p>
        <h1 class="act close" tabIndex={-1}>
          {runWords.before}
        </h1>
        {held && caution !== '' && <Caution>{caution}</Caution>}
        {zone && <ZoneSetup method={place.method} zone={zone} />}
        {hot.map((run) => (
          <p key={run.run} class="in-stop">
            {run.aborted ? runWords.abortedHot : runWords.anotherRuns}{' '}
            <a href={paths.run(card.job, run.run)}>{runWords.openRun}</a>
          </p>
        ))}
        <RunChecks card={card} checks={checks} />
        <Armed />
        <PlanBefore card={card} method={place.method.id} zone={ask.zone} purpose={ask.purpose} />
        <RunFigures ask={ask} pads={zone?.pads ?? []} />
      </Leaf>
    </Frame>
  )
}

/** By the checks shown here, or by a hold point before them. */
function heldBy(open: number, held: StepPlace): string {
  return open > 0 ? runWords.heldOpen(open) : runWords.heldAt(held.number, held.step.title)
}

/** Above the key that makes the pads hot. */
function FootCaution({ words }: { words: string }): JSX.Element {
  return (
    <p class="foot-caution">
      <Mark name="caution" />
      <span>{words}</span>
    </p>
  )
}

function RunFigures({ ask, pads }: { ask: HeatRunAsk; pads: readonly PadDoc[] }): JSX.Element {
  const { settings } = ask
  const sized = pads.filter((pad) => pad.size_mm !== undefined)
  return (
    <>
      <Facts
        rows={[
          [runWords.purpose, runWords[ask.purpose]],
          [runWords.limitsName, <Limits key="limits" settings={settings} />],
          [
            runWords.plan,
            runWords.forecast(duration(settings.ramp_s * 1000), duration(settings.soak_s * 1000)),
          ],
          [runWords.readEvery, duration(settings.gap_max_s * 1000)],
          ...(sized.length > 0 ? [[runWords.pads, <Sizes key="pads" pads={sized} />] as const] : []),
        ]}
      />
      <p class="label soft">{runWords.soakIs[ask.purpose]}</p>
      <p class="label soft">{w.common.advice}</p>
    </>
  )
}

function Sizes({ pads }: { pads: readonly PadDoc[] }): JSX.Element {
  return (
    <ul>
      {pads.map(({ id, name, size_mm: [width, height] = [0, 0] }) => (
        <li key={id}>
          {runWords.withName(id, name)}, {runWords.size(width, height)}
        </li>
      ))}
    </ul>
  )
}

function Limits({ settings }: { settings: HeatSettings }): JSX.Element {
  const limit = (value: number) => quantity(value, settings.decimals, settings.sensors_unit)
  const rate = (value: number | undefined) =>
    value === undefined ? '' : quantity(value, settings.decimals, runWords.perMinute)
  const { metal_max, neighbour_max, ramp_max, cooling_max } = settings
  const rates = runWords.rates(rate(ramp_max), rate(cooling_max))
  return (
    <ul>
      <li>{runWords.limits(limit(settings.lagging_min), limit(settings.leading_max))}</li>
      {metal_max !== undefined && <li>{runWords.limitOf.metal(limit(metal_max))}</li>}
      {neighbour_max !== undefined && <li>{runWords.limitOf.neighbour(limit(neighbour_max))}</li>}
      {rates !== '' && <li>{rates}</li>}
    </ul>
  )
}

/** A step that goes on with a run of an earlier one, which nobody has begun. */
export function NotBegun({ card, place, ask }: Omit<BeforeProps, 'onGo' | 'view' | 'onDone'>): JSX.Element {
  const begins = ask.continues && placeOf(card, ask.continues.method, ask.continues.step)
  const to = begins ? paths.step(card.job, begins.method.id, begins.step.id) : paths.card(card.job)
  return (
    <Frame
      act={`${card.job}/${place.step.id}/${ask.id}/not_begun`}
      card={card}
      place={place}
      back={paths.step(card.job, place.method.id, place.step.id)}
      foot={
        <KeyLink tone="main" href={to}>
          {runWords.toThatStep}
        </KeyLink>
      }
    >
      <Leaf>
        <h1 class="act close" tabIndex={-1}>
          {runWords.notBegun}
        </h1>
        {begins && <p>{runWords.notBegunWhat(begins.step.title)}</p>}
      </Leaf>
    </Frame>
  )
}
