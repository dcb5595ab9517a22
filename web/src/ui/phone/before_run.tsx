// Before switch-on: zone, pads, sensors, limits, forecast, the alarm tested by ear; then 'Switch on'.
import type { JSX } from 'preact'
import type { HeatRunAsk, Named } from '../../core/method.ts'
import { heatOn } from '../../core/views/drafts.ts'
import { isHot, standingOf } from '../../core/views/statuses.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Caution, Facts, Leaf } from '../parts/leaf.tsx'
import { w } from '../words/en.ts'
import { heatWords } from '../words/en_heat.ts'
import { runWords } from '../words/en_run.ts'
import { duration, quantity } from '../words/format.ts'
import { AlarmTest, Armed } from './armed.tsx'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { go, paths } from './router.ts'
import type { AskProps } from './text_screens.tsx'

function named(ones: readonly Named[]): JSX.Element {
  return (
    <ul>
      {ones.map(({ id, name }) => (
        <li key={id}>{runWords.withName(id, name)}</li>
      ))}
    </ul>
  )
}

type BeforeProps = AskProps<HeatRunAsk> & { onGo: (path: string) => void }

export function BeforeRun({ card, place, ask, onGo }: BeforeProps): JSX.Element {
  const { record, services } = usePhone()
  const { settings } = ask
  const zone = place.method.zones.find((one) => one.id === ask.zone)
  const held = standingOf(card, place).heldBy
  const running = card.state.runs.filter((run) => run.zone === ask.zone && isHot(run) && !run.aborted)
  const limit = (value: number) => quantity(value, settings.decimals, settings.sensors_unit)
  const switchOn = async () => {
    if (held) return onGo(paths.step(card.job, held.method.id, held.step.id))
    void services.device.wakeLock.hold()
    const made = await record(card.job, [heatOn(place, ask)])
    if (made?.[0]) go(paths.run(card.job, made[0].hash), 'replace')
  }
  return (
    <Frame
      act={`${card.job}/${place.step.id}/${ask.id}/before`}
      card={card}
      place={place}
      back={paths.step(card.job, place.method.id, place.step.id)}
      foot={
        <>
          <Key
            tone="main"
            mark={held ? 'held' : 'hot'}
            held={held !== undefined}
            onPress={() => void switchOn()}
            small={held ? w.card.held.key(held.state.open.length) : runWords.switchOnSmall}
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
      <Leaf>
        <p class="stage">{heatWords.title(zone?.name ?? ask.zone)}</p>
        <h1 class="act close" tabIndex={-1}>
          {runWords.before}
        </h1>
        {place.step.caution !== '' && <Caution>{place.step.caution}</Caution>}
        <Facts
          rows={[
            [runWords.purpose, runWords[ask.purpose]],
            [runWords.pads, named(zone?.pads ?? [])],
            [runWords.sensors, named(zone?.sensors ?? [])],
            [runWords.limitsName, runWords.limits(limit(settings.lagging_min), limit(settings.leading_max))],
            [
              runWords.plan,
              runWords.forecast(duration(settings.ramp_s * 1000), duration(settings.soak_s * 1000)),
            ],
            [runWords.readEvery, duration(settings.gap_max_s * 1000)],
          ]}
        />
        <p class="label soft">{w.common.advice}</p>
        {running.map((run) => (
          <p key={run.run} class="in-stop">
            {runWords.anotherRuns} <a href={paths.run(card.job, run.run)}>{runWords.openRun}</a>
          </p>
        ))}
        <Armed />
      </Leaf>
    </Frame>
  )
}
