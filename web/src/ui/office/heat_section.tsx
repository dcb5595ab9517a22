// The joint cut across: layers, pads and a hollow profile, thickness drawn larger than length.
import type { JSX, TargetedEvent } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { Joint } from '../../core/views/office_heat_document.ts'
import { type Section, type SectionPart, sectionAt } from '../../core/views/office_heat_section.ts'
import { fieldWords, editing as words } from '../words/en_heat_form.ts'
import { mm } from '../words/en_heat_office.ts'

export function HeatSection({ joint }: { joint: Joint }): JSX.Element {
  const id = useId()
  const [x_mm, setX] = useState(Math.round(joint.size[0] / 4))
  const section = sectionAt(joint, x_mm)
  return (
    <section class="o-stack" aria-label={words.section}>
      <h2>{words.section}</h2>
      <Cut joint={joint} section={section} label={words.sectionAt(mm(x_mm))} />
      <div class="hz-cut-place">
        <label for={id}>{words.sectionPlace}</label>
        <input
          id={id}
          type="range"
          min={0}
          max={joint.size[0]}
          step={1}
          value={x_mm}
          aria-valuetext={words.sectionAt(mm(x_mm))}
          onInput={(event: TargetedEvent<HTMLInputElement>) => setX(Number(event.currentTarget.value))}
        />
        <output for={id}>{words.sectionAt(mm(x_mm))}</output>
      </div>
      <p class="o-note">
        {words.sectionNote(section.times)} {joint.profile && words.sectionHollow}
      </p>
      <Names joint={joint} />
    </section>
  )
}

const ROOM_MM = 4

function Cut({ joint, section, label }: { joint: Joint; section: Section; label: string }): JSX.Element {
  const { times, depth, parts } = section
  const hatch = useId()
  const [width, height] = [joint.size[1] + 2 * ROOM_MM, (depth[1] - depth[0]) * times + 2 * ROOM_MM]
  const box = (part: SectionPart) => ({
    x: ROOM_MM + part.y[0],
    width: Math.max(0, part.y[1] - part.y[0]),
    y: ROOM_MM + (part.depth[0] - depth[0]) * times,
    height: Math.max(0, part.depth[1] - part.depth[0]) * times,
  })
  return (
    <svg class="hz-cut" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
      <defs>
        <pattern id={hatch} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path class="hz-hatch" d="M0 0V5" />
        </pattern>
      </defs>
      {parts.map((part) => (
        <rect
          key={`${part.kind} ${part.id} ${part.y.join()}`}
          class={`hz-part is-${part.kind}`}
          fill={part.kind === 'adhesive' ? `url(#${hatch})` : undefined}
          {...box(part)}
        />
      ))}
    </svg>
  )
}

/** The layers' names stand beside the cut, in its order. */
function Names({ joint }: { joint: Joint }): JSX.Element {
  return (
    <ol class="o-plain hz-names">
      {joint.layers.map((layer) => (
        <li key={layer.id}>
          <span class={`hz-swatch is-${layer.role}`} aria-hidden="true" />
          {layer.name}, {fieldWords.choice(layer.role)}, {mm(layer.thickness_mm)}
        </li>
      ))}
    </ol>
  )
}
