// The top of the phone's page: where am I; what runs and is it safe here; where the records are.
import type { ComponentChildren, JSX } from 'preact'
import { w } from '../words/en.ts'
import { Mark } from './mark.tsx'
import { type Graduation, SteelRule } from './steel_rule.tsx'

export type Glance = {
  /** What runs and is it safe here: 'Pads hot, 186 °C', or the conditions that hold. */
  safety: string
  hot: boolean
  /** A standing condition does not hold any more. */
  stop: boolean
  /** Where the records are: '3 on this phone', 'All at the office'. */
  records: string
  office: boolean
}

export type FolioProps = {
  back?: string | undefined
  job?: string | undefined
  what: string
  /** On a shared phone: who works now, and where that is changed; stands in place of `what`. */
  who?: { name: string; href: string } | undefined
  step?: { at: number; of: number } | undefined
  rule?: readonly Graduation[] | undefined
  /** Nobody may take it for a real job: it says so on every page. */
  invented?: boolean | undefined
  glance: ComponentChildren
}

export function Folio(props: FolioProps): JSX.Element {
  return (
    <header class="folio">
      <div class="folio-line">
        {props.back && (
          <a class="folio-back" href={props.back}>
            <Mark name="back" />
            <span class="unseen">{w.common.back}</span>
            {props.job && <span class="num">{props.job}</span>}
          </a>
        )}
        {props.who ? (
          <a class="folio-what folio-who" href={props.who.href}>
            <Mark name="person" />
            <span>{props.who.name}</span>
          </a>
        ) : (
          <span class="folio-what">{props.what}</span>
        )}
        {(props.step || props.invented) && (
          <span class="folio-step">
            {props.step && <span class="num">{props.step.at}</span>}
            {props.step && ` ${w.common.ofSteps(props.step.of)}`}
            {props.invented && <small>{w.phone.invented}</small>}
          </span>
        )}
      </div>
      {props.rule && <SteelRule graduations={props.rule} />}
      {props.glance}
    </header>
  )
}

export function GlanceLine(props: {
  glance: Glance
  onConditions: () => void
  onRecords: () => void
}): JSX.Element {
  const { safety, hot, stop, records, office } = props.glance
  return (
    <div class="glance">
      <button
        type="button"
        class={stop ? 'glance-stop' : hot ? 'glance-hot' : ''}
        onClick={props.onConditions}
      >
        <Mark name={stop ? 'finding' : hot ? 'hot' : 'safe'} />
        <span>{safety}</span>
      </button>
      <button type="button" onClick={props.onRecords}>
        <Mark name={office ? 'office' : 'phone'} />
        <span>{records}</span>
      </button>
    </div>
  )
}
