// Pads and sensors of a run in the picture of its zone: set up, turned down, lifted, called for.
import type { JSX } from 'preact'
import type { MethodDoc, ZoneDoc } from '../../core/method.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { type PadLook, SetupPicture } from '../parts/setup_picture.tsx'
import { runWords } from '../words/en_run.ts'
import { capital, listed } from '../words/format.ts'
import { useDrawing } from './rivet_map_drawing.ts'

/** The method's map that shows this zone's pads. */
function mapOf(method: MethodDoc, zone: ZoneDoc) {
  const zones = [zone.id, ...(zone.made_of ?? [])]
  return method.maps?.find((map) => map.pads.some((pad) => zones.includes(pad.zone ?? '')))
}

export function ZoneSetup({ method, zone }: { method: MethodDoc; zone: ZoneDoc }): JSX.Element {
  const map = mapOf(method, zone)
  const src = useDrawing(map && method.drawings[map.drawing])
  const label = runWords.setup(capital(zone.name), idsOf(zone.pads), idsOf(zone.sensors))
  return (
    <>
      <SetupPicture zone={zone} map={map} src={src} label={label} />
      {map && <p class="label soft">{runWords.sensorKey}</p>}
    </>
  )
}

function idsOf(ones: readonly { readonly id: string }[]): string {
  return listed(ones.map(({ id }) => id))
}

export function PadsNow({ view }: { view: RunView }): JSX.Element {
  const { zone, place } = view
  const map = mapOf(place.method, zone)
  const src = useDrawing(map && place.method.drawings[map.drawing])
  const looks = new Map(zone.pads.map(({ id }) => [id, lookOf(view, id)]))
  const states = [...looks].map(([id, look]) => `${id} ${runWords.padIs[look]}`)
  const label = runWords.setupNow(capital(zone.name), listed(states))
  return <SetupPicture zone={zone} map={map} src={src} pads={looks} label={label} />
}

function lookOf({ run, next, phase }: RunView, pad: string): PadLook {
  if (phase === 'cooling' || run.lifted.includes(pad)) return 'lifted'
  if (next.pad === pad) return 'now'
  return run.turned_down.includes(pad) ? 'down' : 'on'
}
