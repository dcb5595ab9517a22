// The parts of the zone's form, each folded until it is wanted: its own, one for each layer, pad, sensor, neighbour.
import type { ComponentChildren, JSX } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import type { Json } from '../../core/canonical.ts'
import { type Joint, jointOf, withAt } from '../../core/views/office_heat_document.ts'
import {
  bondFields,
  type FieldGroup,
  faultsAt,
  layerFields,
  neighbourFields,
  padFields,
  sensorFields,
  surroundingFields,
  untouched,
  type ZoneFault,
  zoneFields,
} from '../../core/views/office_heat_fields.ts'
import { added, addedLayer, removed, type Thing } from '../../core/views/office_heat_place.ts'
import { editing as words } from '../words/en_heat_form.ts'
import type { Draft } from './heat_draft.ts'
import { HeatFields } from './heat_fields.tsx'
import { isSame, thingName } from './heat_joint_editor.tsx'

type PartsProps = {
  draft: Draft
  faults: readonly ZoneFault[]
  chosen: Thing | undefined
  onChoose: (thing: Thing | undefined) => void
}
const THINGS = ['pads', 'sensors', 'neighbours'] as const

export function HeatEditorParts({ draft, faults, chosen, onChoose }: PartsProps): JSX.Element {
  const { document } = draft
  const kept = untouched(document)
  const fields = (groups: readonly FieldGroup[]) => (
    <HeatFields document={document} groups={groups} faults={faults} onType={draft.change} />
  )
  const hasFault = (groups: readonly FieldGroup[]): boolean =>
    groups.some((group) => faultsAt(faults, group.path).length > 0)
  const part = (name: string, groups: readonly FieldGroup[], open: boolean) => (
    <Fold name={name} open={open || hasFault(groups)} faulty={hasFault(groups)}>
      {fields(groups)}
    </Fold>
  )
  return (
    <div class="hz-parts">
      {part(words.parts.zone, zoneFields(), true)}
      {part(words.parts.bondline, bondFields(document), false)}
      <Layers draft={draft} faults={faults} />
      {THINGS.map((kind) => (
        <Things key={kind} {...{ kind, draft, faults, chosen, onChoose }} />
      ))}
      {part(words.parts.around, surroundingFields(), false)}
      {kept.length > 0 && <p class="o-note">{words.kept(kept)}</p>}
    </div>
  )
}

type FoldProps = { name: string; open: boolean; faulty: boolean; children: ComponentChildren }

/** Opens when it is chosen or has a fault; closed by hand it stays closed. */
function Fold({ name, open, faulty, children }: FoldProps): JSX.Element {
  const details = useRef<HTMLDetailsElement>(null)
  useEffect(() => {
    if (open && details.current) details.current.open = true
  }, [open])
  return (
    <details ref={details} class="hz-fold">
      <summary class={faulty ? 'in-stop' : ''}>{name}</summary>
      {children}
    </details>
  )
}

function Layers({ draft, faults }: { draft: Draft; faults: readonly ZoneFault[] }): JSX.Element {
  const { document, change } = draft
  const { layers } = jointOf(document)
  return (
    <section class="o-stack" aria-label={words.parts.layers}>
      <h2>{words.parts.layers}</h2>
      {layers.map((layer, number) => {
        const groups = layerFields(document, number)
        const name = words.thing.layers(layer.name)
        const faulty = groups.some((group) => faultsAt(faults, group.path).length > 0)
        return (
          <Fold key={number} name={name} open={faulty} faulty={faulty}>
            <HeatFields document={document} groups={groups} faults={faults} onType={change} />
            <Remove
              what={name}
              onPress={() =>
                change(withAt(document, ['layers', number], undefined), `remove layer ${number}`)
              }
            />
          </Fold>
        )
      })}
      <Add
        name={words.add.layers}
        onPress={() => change(addedLayer(document), `add layer ${layers.length}`)}
      />
    </section>
  )
}

function groupsOf(document: Json, { kind, number }: Thing): readonly FieldGroup[] {
  if (kind === 'pads') return padFields(number)
  return kind === 'sensors' ? sensorFields(document, number) : neighbourFields(document, number)
}

function Things({
  kind,
  draft,
  faults,
  chosen,
  onChoose,
}: PartsProps & { kind: Thing['kind'] }): JSX.Element {
  const { document, change } = draft
  const joint: Joint = jointOf(document)
  const count = joint[kind].length
  const add = (): void => {
    change(added(document, kind), `add ${kind} ${count}`)
    onChoose({ kind, number: count })
  }
  const remove = (thing: Thing): void => {
    onChoose(undefined)
    change(removed(document, thing), `remove ${kind} ${thing.number}`)
  }
  return (
    <section class="o-stack" aria-label={words.parts[kind]}>
      <h2>{words.parts[kind]}</h2>
      {joint[kind].map((_, number) => {
        const thing: Thing = { kind, number }
        const groups = groupsOf(document, thing)
        const faulty = groups.some((group) => faultsAt(faults, group.path).length > 0)
        return (
          <Fold
            key={number}
            name={thingName(joint, thing)}
            open={faulty || isSame(chosen, thing)}
            faulty={faulty}
          >
            <HeatFields document={document} groups={groups} faults={faults} onType={change} />
            <Remove what={thingName(joint, thing)} onPress={() => remove(thing)} />
          </Fold>
        )
      })}
      <Add name={words.add[kind]} onPress={add} />
    </section>
  )
}

function Add({ name, onPress }: { name: string; onPress: () => void }): JSX.Element {
  return (
    <button type="button" class="key key-plain" onClick={onPress}>
      <span>{name}</span>
    </button>
  )
}

function Remove({ what, onPress }: { what: string; onPress: () => void }): JSX.Element {
  return (
    <button type="button" class="key key-plain" onClick={onPress}>
      <span>{words.remove(what)}</span>
    </button>
  )
}
