// What a plan says of layers, neighbours, release, wedging and touch, line by line.
import type { ComponentChildren, JSX } from 'preact'
import type {
  LayerAnswer,
  NeighbourAnswer,
  PlanAnswer,
  ReleaseAct,
  Span,
} from '../../core/views/office_heat_answer.ts'
import type { Joint } from '../../core/views/office_heat_document.ts'
import { Mark } from '../parts/mark.tsx'
import { amount, degrees, minutes, mm, span } from '../words/en_heat_office.ts'
import { figures, tables as words } from '../words/en_heat_plan.ts'

type TablesProps = { answer: PlanAnswer; joint: Joint }

export function HeatTables({ answer, joint }: TablesProps): JSX.Element {
  return (
    <div class="hz-tables">
      <Part title={words.layers}>
        <ul class="o-plain">
          {answer.layers.map((layer) => (
            <Layer
              key={layer.layer}
              layer={layer}
              name={layerName(joint, layer.layer)}
              band={answer.bands?.layers.find((one) => one.layer === layer.layer)?.peak_C}
            />
          ))}
        </ul>
      </Part>
      <Part title={words.neighbours}>
        <ul class="o-plain">
          {answer.neighbours.map((one) => (
            <Neighbour key={one.id} one={one} name={nameOf(joint, one)} />
          ))}
        </ul>
      </Part>
      <Part title={words.release}>
        {answer.release.length === 0 && <p class="soft">{words.noRelease}</p>}
        <ol class="o-plain">
          {[...byTime(answer.release)].map(([at_min, acts]) => (
            <li key={at_min}>{words.releaseLine(minutes(at_min), acts.map(actWords))}</li>
          ))}
        </ol>
      </Part>
      <Part title={words.touch}>
        <ul class="o-plain">
          {answer.touch.faces.map((face) => (
            <li key={`${face.layer} ${face.contact}`}>
              {words.touchLine(
                layerName(joint, face.layer),
                face.contact,
                degrees(10 * face.threshold_C),
                amount({ value: face.from_min, unit: 'min', decimals: 0 }),
              )}
            </li>
          ))}
        </ul>
        <p class="o-note">{words.source(answer.touch.source)}</p>
      </Part>
    </div>
  )
}

function Part({ title, children }: { title: string; children: ComponentChildren }): JSX.Element {
  return (
    <section aria-label={title}>
      <h2>{title}</h2>
      {children}
    </section>
  )
}

const layerName = (joint: Joint, id: string): string =>
  joint.layers.find((one) => one.id === id)?.name ?? id.replaceAll('_', ' ')
const nameOf = (joint: Joint, { id }: NeighbourAnswer): string =>
  joint.neighbours.find((one) => one.id === id)?.name ?? id

function actWords({ pad, act, power_share }: ReleaseAct): string {
  return words.padAct(pad, { turn_down: words.down(power_share ?? 0), off: words.off, lift: words.lift }[act])
}

/** Pads that are turned down at one time are one step of two hands. */
function byTime(release: readonly ReleaseAct[]): ReadonlyMap<number, readonly ReleaseAct[]> {
  const times = new Map<number, readonly ReleaseAct[]>()
  for (const act of release) times.set(act.at_min, [...(times.get(act.at_min) ?? []), act])
  return times
}

type LayerProps = { layer: LayerAnswer; name: string; band: Span | undefined }

function Layer({ layer, name, band }: LayerProps): JSX.Element {
  const over = layer.limit_C !== undefined && layer.peak_C > layer.limit_C
  const peak_at = amount({ value: layer.peak_at_min, unit: 'min', decimals: 0 })
  return (
    <li>
      <p class="hz-figure">
        <small>{name}</small>
        <strong class={over ? 'num in-stop' : 'num'}>{degrees(10 * layer.peak_C)}</strong>
        {band && <span>{figures.band(span(heatOf(band[0]), heatOf(band[1])))}</span>}
        {layer.limit_C !== undefined && (
          <span>
            {words.limit.toLowerCase()} {degrees(10 * layer.limit_C)}
          </span>
        )}
      </p>
      <p class="o-note">{words.at(mm(layer.peak_x_mm), mm(layer.peak_y_mm), peak_at)}</p>
      {layer.above.length > 0 && (
        <p class="o-note">
          {words.above}{' '}
          {layer.above
            .map((one) =>
              words.aboveLine(
                degrees(10 * one.above_C),
                minutes(one.total_min),
                one.earlier_min,
                one.earlier_of_zones,
              ),
            )
            .join('; ')}
          .
        </p>
      )}
      {layer.ageing_caution && (
        <details class="o-details">
          <summary>{ageing(layer.ageing_caution)}</summary>
          <p class="o-note">{words.source(layer.ageing_caution.source)}</p>
        </details>
      )}
    </li>
  )
}

const heatOf = (value: number) => ({ value, unit: 'C', decimals: 0 })

function ageing(caution: NonNullable<LayerAnswer['ageing_caution']>): string {
  const share = (of: number): string => `${(100 * of).toFixed(1)}\u00a0%`
  return words.ageing(
    share(caution.share_of_time_to_lose_minimum_strength),
    share(caution.stronger_alloys_share),
  )
}

function Neighbour({ one, name }: { one: NeighbourAnswer; name: string }): JSX.Element {
  return (
    <li>
      <p class="hz-figure">
        <small>
          {name}
          {words.kinds[one.kind] !== name && `, ${words.kinds[one.kind] ?? one.kind}`}
        </small>
        <strong class={one.peak_C > one.limit_C ? 'num in-stop' : 'num'}>{degrees(10 * one.peak_C)}</strong>
        <span>
          {degrees(10 * one.hot_side_peak_C)} {words.hotSide}
        </span>
        <span>
          {words.limit.toLowerCase()} {degrees(10 * one.limit_C)}
        </span>
        <span class={one.passes ? '' : 'o-line in-stop'}>
          {!one.passes && <Mark name="refused" />}
          {one.passes
            ? words.passes
            : `${one.peak_C > one.limit_C ? words.fails : words.failsHot}; ${farther(one)}`}
        </span>
      </p>
    </li>
  )
}

function farther({ passes_farther_by_mm: by }: NeighbourAnswer): string {
  return by === 'never' ? words.nowhere : words.farther(mm(by))
}
