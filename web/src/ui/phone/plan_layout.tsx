// The plan's layout: the zone to scale, and every place by its distances from corner and pad edge.
import type { JSX } from 'preact'
import type { PlanLayout, ResponseDoc } from '../../core/live/response_set.ts'
import { type Placed, sensorsPlaced } from '../../core/views/plan_layout_view.ts'
import { LayoutPicture } from '../parts/layout_picture.tsx'
import { Facts } from '../parts/leaf.tsx'
import { forecastWords as words } from '../words/en_forecast.ts'
import { capital, quantity } from '../words/format.ts'

const mm = Math.round

export function PlanLayoutPart({ set: { layout } }: { set: ResponseDoc }): JSX.Element {
  const [width, height] = layout.size_mm
  return (
    <section class="plan-layout">
      <h2 class="label-head">{words.layout}</h2>
      <LayoutPicture layout={layout} label={words.layoutLabel(mm(width), mm(height))} />
      <p class="label soft">{words.layoutKey}</p>
      <Facts
        rows={[
          ...sensorsPlaced(layout).map((one) => [words.place.sensor(one.id), placed(one)] as const),
          [words.place.lagging, spot(layout, 'lagging')],
          [words.place.leading, spot(layout, 'leading')],
          ...layout.pads.map(({ id, box_mm: [x0, y0, x1, y1] }) => {
            return [words.place.pad(id), words.padAt(mm(x1 - x0), mm(y1 - y0), mm(x0), mm(y0))] as const
          }),
          ...layout.neighbours.map((one) => [capital(one.name), neighbour(one)] as const),
        ]}
      />
    </section>
  )
}

function placed({ x_mm, y_mm, pad }: Placed): string {
  const corner = words.fromCorner(mm(x_mm), mm(y_mm))
  if (pad === undefined) return corner
  const beside = pad.inside_mm < 0
  return `${corner}; ${beside ? words.besidePad(mm(-pad.inside_mm), pad.id) : words.insidePad(mm(pad.inside_mm), pad.id)}`
}

/** How far the nearest sensor is from the spot that leads or lags, and what that makes of its readings. */
function spot(layout: PlanLayout, which: 'lagging' | 'leading'): string {
  const { at_mm, sensor, distance_mm, reads_more_dK = 0 } = layout[which]
  const at = words.fromCorner(mm(at_mm[0]), mm(at_mm[1]))
  if (sensor === '' || distance_mm === undefined) return at
  const by = quantity(Math.abs(mm(reads_more_dK / 10)), 0, 'K')
  const reads = reads_more_dK < 0 ? words.readsLess(by) : words.readsMore(by)
  return `${at}; ${words.sensorAway(sensor, mm(distance_mm))} ${reads}`
}

function neighbour({ peak_C, limit_C, passes_at_mm }: PlanLayout['neighbours'][number]): string {
  const said = words.neighbour(quantity(mm(peak_C), 0, 'C'), quantity(mm(limit_C), 0, 'C'))
  return passes_at_mm === 0 ? said : `${said}; ${words.tooNear(mm(passes_at_mm ?? 0))}`
}
