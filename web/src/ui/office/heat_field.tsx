// The temperature field as a picture over time: one scale of colours, a slider, play, and a layer to look at.
import type { JSX, TargetedEvent } from 'preact'
import { useEffect, useId, useMemo, useState } from 'preact/hooks'
import type { PlanAnswer } from '../../core/views/office_heat_answer.ts'
import { heatColourText } from '../../core/views/office_heat_colours.ts'
import type { Joint, Point } from '../../core/views/office_heat_document.ts'
import {
  extremesOf,
  type Field,
  type FieldFile,
  type FieldLayer,
  fieldOf,
  frameAt,
  lineOf,
  valueAt_dC,
} from '../../core/views/office_heat_field.ts'
import { extentOf } from '../../core/views/office_heat_place.ts'
import { degrees, mm } from '../words/en_heat_office.ts'
import { picture as words } from '../words/en_heat_plan.ts'
import { Colours } from './heat_colours.tsx'
import { HeatJoint } from './heat_joint.tsx'
import { JointThings, Signs } from './heat_things.tsx'

const FRAME_MS = 220

type FieldProps = {
  file: FieldFile
  joint: Joint
  answer: PlanAnswer
  at_min: number
  onTime: (at_min: number) => void
}

export function HeatField({ file, joint, answer, at_min, onTime }: FieldProps): JSX.Element {
  const field = useMemo(() => fieldOf(file), [file])
  const [chosen, setChosen] = useState(joint.bond)
  const layer = field.layers.find((one) => one.id === chosen) ?? field.layers[0]
  const frame = frameAt(file.t_min, at_min)
  if (layer === undefined) return <p>{words.loading}</p>
  return (
    <div class="o-stack">
      <Layers field={field} chosen={layer.id} onChoose={setChosen} />
      <Picture {...{ field, layer, frame, joint, answer }} />
      <Player marks={file.t_min} frame={frame} onTime={onTime} />
      <Legend field={field} joint={joint} layer={layer} purpose={answer.purpose} />
      <Now {...{ field, layer, frame, joint }} />
    </div>
  )
}

type LayersProps = { field: Field; chosen: string; onChoose: (layer: string) => void }

function Layers({ field, chosen, onChoose }: LayersProps): JSX.Element {
  const group = useId()
  return (
    <fieldset class="o-options o-options-row">
      <legend>{words.layer}</legend>
      {field.layers.map((layer) => (
        <label key={layer.id} class="o-option">
          <input
            type="radio"
            name={group}
            checked={layer.id === chosen}
            onChange={() => onChoose(layer.id)}
          />
          <span>{layer.name}</span>
        </label>
      ))}
    </fieldset>
  )
}

type PictureProps = { field: Field; layer: FieldLayer; frame: number; joint: Joint; answer: PlanAnswer }

function Picture({ field, layer, frame, joint, answer }: PictureProps): JSX.Element {
  const extent = extentOf(joint)
  const at = words.at(field.t_min[frame] ?? 0)
  const found = extremesOf(field, layer, frame)
  const range = found ? [degrees(found.lowest_dC), degrees(found.highest_dC)] : ['', '']
  const spots = {
    leads: [answer.leading.x_mm, answer.leading.y_mm],
    lags: [answer.lagging.x_mm, answer.lagging.y_mm],
  } as const
  return (
    <figure role="img" aria-label={words.label(layer.name, at, range[0] ?? '', range[1] ?? '')}>
      <HeatJoint
        joint={joint}
        extent={extent}
        under={<Colours {...{ field, layer, frame, joint, extent }} />}
        drawn={(toPicture) => <Lines {...{ field, layer, frame, joint, toPicture }} />}
      >
        <JointThings joint={joint} extent={extent} spots={layer.id === joint.bond ? spots : undefined} />
      </HeatJoint>
    </figure>
  )
}

type LinesProps = Omit<PictureProps, 'answer'> & { toPicture: (place: Point) => Point }

/** Where the layer is workable, and where it is over its limit. */
function Lines({ joint, ...drawn }: LinesProps): JSX.Element {
  const { layer } = drawn
  const limit = limitOf(joint, layer.id)
  return (
    <g class="hz-lines">
      {layer.id === joint.bond && <Line class="hz-line" level_C={joint.workable_C} {...drawn} />}
      {limit !== undefined && <Line class="hz-line is-limit" level_C={limit} {...drawn} />}
    </g>
  )
}

type LineProps = Omit<LinesProps, 'joint'> & { class: string; level_C: number }

/** The page is drawn anew each second; where the line runs changes with the frame alone. */
function Line({ class: name, field, layer, frame, level_C, toPicture }: LineProps): JSX.Element {
  const pieces = useMemo(() => lineOf(field, layer, frame, 10 * level_C), [field, layer, frame, level_C])
  const d = pieces.map(([from, to]) => `M${toPicture(from).join(' ')}L${toPicture(to).join(' ')}`).join('')
  return (
    <>
      <path class="hz-line is-under" d={d} />
      <path class={name} d={d} />
    </>
  )
}

function limitOf(joint: Joint, layer: string): number | undefined {
  if (layer === joint.bond && Number.isFinite(joint.maximum_C)) return joint.maximum_C
  return joint.layers.find((one) => one.id === layer)?.limit_C
}

type PlayerProps = { marks: readonly number[]; frame: number; onTime: (at_min: number) => void }

function Player({ marks, frame, onTime }: PlayerProps): JSX.Element {
  const id = useId()
  const [plays, setPlays] = useState(false)
  const last = marks.length - 1
  useEffect(() => {
    if (!plays) return undefined
    if (frame >= last) {
      setPlays(false)
      return undefined
    }
    const timer = setTimeout(() => onTime(marks[frame + 1] ?? 0), FRAME_MS)
    return () => clearTimeout(timer)
  }, [plays, frame])
  const press = (): void => {
    if (!plays && frame >= last) onTime(marks[0] ?? 0)
    setPlays(!plays)
  }
  return (
    <div class="hz-player">
      <button type="button" class="key key-plain" onClick={press}>
        <span>{plays ? words.pause : words.play}</span>
      </button>
      <label for={id}>{words.time}</label>
      <input
        id={id}
        type="range"
        min={0}
        max={last}
        step={1}
        value={frame}
        aria-valuetext={words.at(marks[frame] ?? 0)}
        onInput={(event: TargetedEvent<HTMLInputElement>) =>
          onTime(marks[Number(event.currentTarget.value)] ?? 0)
        }
      />
      <output for={id} class="num">
        {words.at(marks[frame] ?? 0)}
      </output>
    </div>
  )
}

const STEPS = 33

type LegendProps = { field: Field; joint: Joint; layer: FieldLayer; purpose: string }

function Legend({ field, joint, layer, purpose }: LegendProps): JSX.Element {
  const limit = limitOf(joint, layer.id)
  const [low, high] = [degrees(field.lowest_dC), degrees(field.highest_dC)]
  const stops = Array.from({ length: STEPS }, (_, step) => heatColourText(step / (STEPS - 1)))
  return (
    <div class="hz-legend">
      <div class="hz-scale">
        <span>{low}</span>
        <span class="hz-bar" style={{ backgroundImage: `linear-gradient(to right, ${stops.join(', ')})` }} />
        <span>{high}</span>
      </div>
      <p class="o-note">
        {words.legend(low, high)}
        {layer.id === joint.bond && `. ${words.workable(degrees(10 * joint.workable_C), purpose)}`}
        {limit !== undefined && `. ${words.limit(degrees(10 * limit))}`}.
      </p>
      <p class="o-note">{words.heatedSide}</p>
      <Signs spots={layer.id === joint.bond} />
    </div>
  )
}

/** What the picture shows, in figures. */
function Now({ field, layer, frame, joint }: Omit<PictureProps, 'answer'>): JSX.Element {
  const found = extremesOf(field, layer, frame)
  return (
    <div>
      {found && (
        <p>
          {words.range(
            degrees(found.lowest_dC),
            degrees(found.highest_dC),
            mm(found.hottest[0]),
            mm(found.hottest[1]),
          )}
        </p>
      )}
      <ul class="o-cells" aria-label={words.sensors}>
        {joint.sensors.map((sensor) => {
          const on = field.layers.find((one) => one.id === sensor.layer)
          const value = on && valueAt_dC(field, on, frame, sensor.at)
          return (
            <li key={sensor.id}>
              <small>{sensor.id}</small>
              <span class="num">{value === undefined ? '' : degrees(value)}</span>
            </li>
          )
        })}
      </ul>
    </div>
  )
}
