// The time line: time, shape, what, who and device; newest first, grouped by stage.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { TimeGroup, TimeItem, TimeShape } from '../../core/views/office_timeline.ts'
import { Mark, type MarkName } from '../parts/mark.tsx'
import { clockTime, countdown, isToday, shortDay, when } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import type { AskFor } from './job_ask.ts'
import { PART } from './job_jump.tsx'
import { useMinute } from './office_clock.tsx'
import { deviceName, personName, useOffice } from './office_desk.ts'
import { Empty, LinkButton } from './page_parts.tsx'
import { sayWhat } from './say_what.ts'

const MARK_OF: { readonly [S in TimeShape]: { readonly mark: MarkName; readonly ink: string } } = {
  done: { mark: 'done', ink: 'in-bay' },
  record: { mark: 'done', ink: '' },
  photo: { mark: 'camera', ink: '' },
  heat: { mark: 'hot', ink: 'in-hot' },
  tally: { mark: 'done', ink: '' },
  deviation: { mark: 'deviation', ink: 'in-dev' },
  finding: { mark: 'finding', ink: 'in-stop' },
  countersign: { mark: 'sign', ink: '' },
  note: { mark: 'note', ink: '' },
  office: { mark: 'office', ink: '' },
  struck: { mark: 'struck', ink: '' },
  late: { mark: 'late', ink: '' },
  aside: { mark: 'aside', ink: '' },
}

const FIRST_SHOWN = 80
const MORE_SHOWN = 400

function cut(groups: readonly TimeGroup[], limit: number): readonly TimeGroup[] {
  let left = limit
  return groups.flatMap((group) => {
    const rows = group.rows.slice(0, Math.max(left, 0))
    left -= rows.length
    return rows.length > 0 ? [{ ...group, rows }] : []
  })
}

export function TimeLine({ groups, onAsk }: { groups: readonly TimeGroup[]; onAsk: AskFor }): JSX.Element {
  const [limit, setLimit] = useState(FIRST_SHOWN)
  const all = groups.reduce((sum, group) => sum + group.items.length, 0)
  const rows = groups.reduce((sum, group) => sum + group.rows.length, 0)
  return (
    <section class="o-part" id={PART.timeLine} tabIndex={-1} aria-label={o.job.timeLine.title}>
      <div class="o-part-head">
        <h2>{o.job.timeLine.title}</h2>
        <small>{o.job.timeLine.count(all)}</small>
      </div>
      {all === 0 && <Empty words={o.job.timeLine.empty} next={o.job.timeLine.emptyNext} />}
      {cut(groups, limit).map((group) => (
        <div key={group.items[0]?.hash}>
          <h3 class="o-stage">{o.job.timeLine.stage(group.stage, group.title)}</h3>
          <ol class="o-time">
            {group.rows.map((row) => (
              <TimeRows key={row[0]?.hash} row={row} onAsk={onAsk} />
            ))}
          </ol>
        </div>
      ))}
      {rows > limit && (
        <button type="button" class="key key-plain" onClick={() => setLimit(limit + MORE_SHOWN)}>
          <span>{o.job.timeLine.more(rows - limit)}</span>
        </button>
      )}
    </section>
  )
}

/** One row, or one round of the sensors: its readings in a line, and each for itself behind it. */
function TimeRows({ row, onAsk }: { row: readonly TimeItem[]; onAsk: AskFor }): JSX.Element | null {
  const { shop } = useOffice()
  const [first] = row
  if (first === undefined) return null
  if (row.length === 1) return <TimeRow item={first} onAsk={onAsk} />
  const figures = [...row].reverse().map((item) => sayWhat(shop, item.what)[0])
  const { mark, ink } = MARK_OF[first.shape]
  return (
    <li>
      <Moment at_ms={first.at_ms} />
      <span class={ink}>
        <Mark name={mark} />
      </span>
      <div>
        <p class="o-what">
          {o.job.timeLine.readings}: <strong>{o.job.timeLine.inOneGo(figures)}</strong>, {first.what.subject}
        </p>
        <p class="o-who">
          <WhoWords item={first} />
        </p>
        <details class="o-details">
          <summary>{o.job.timeLine.each(row.length)}</summary>
          <ol class="o-time">
            {row.map((item) => (
              <TimeRow key={item.hash} item={item} onAsk={onAsk} />
            ))}
          </ol>
        </details>
      </div>
    </li>
  )
}

function Moment({ at_ms }: { at_ms: number }): JSX.Element {
  const now_ms = useMinute()
  return (
    <time dateTime={new Date(at_ms).toISOString()}>
      {clockTime(at_ms)}
      {!isToday(at_ms, now_ms) && <small class="o-day">{shortDay(at_ms)}</small>}
    </time>
  )
}

function TimeRow({ item, onAsk }: { item: TimeItem; onAsk: AskFor }): JSX.Element {
  const { shop } = useOffice()
  const [strong, rest] = sayWhat(shop, item.what)
  const { mark, ink } = MARK_OF[item.shape]
  return (
    <li class={item.struck ? 'o-struck' : ''}>
      <Moment at_ms={item.at_ms} />
      <span class={ink}>
        <Mark name={mark} />
      </span>
      <div>
        <p class="o-what">
          <strong>{strong}</strong>
          {rest}
        </p>
        <div class="o-under">
          <p class="o-who">
            <WhoWords item={item} />
          </p>
          <RowActs item={item} words={`${strong}${rest}`} onAsk={onAsk} />
        </div>
      </div>
    </li>
  )
}

function WhoWords({ item }: { item: TimeItem }): JSX.Element {
  const { shop } = useOffice()
  const now_ms = useMinute()
  const { timeLine } = o.job
  const words = [
    timeLine.who(personName(shop, item.by), deviceName(shop, item.device)),
    timeLine.auth[item.auth],
  ]
  const marks = [
    item.late ? timeLine.late(when(item.received_ms, now_ms)) : '',
    item.outOfOrder && !item.late ? timeLine.outOfOrder(when(item.received_ms, now_ms)) : '',
    item.typed_ms === undefined ? '' : timeLine.typed(countdown(item.typed_ms)),
    item.beforeHold === '' ? '' : timeLine.beforeHold(item.beforeHold),
    item.aside ? timeLine.aside : '',
    item.unknown ? timeLine.unknown : '',
    item.sentBack ? timeLine.sentBack : '',
    item.afterFiling ? timeLine.afterFiling : '',
  ].filter((word) => word !== '')
  return (
    <>
      {words.filter((word) => word !== '').join(', ')}
      {marks.map((word) => (
        <MarkWords key={word} word={word} />
      ))}
      {item.struck && (
        <span class="o-struck-by">
          {timeLine.struck(
            personName(shop, item.struck.by),
            when(item.struck.at_ms, now_ms),
            item.struck.reason,
          )}
        </span>
      )}
    </>
  )
}

/** What is marked stands out by its first word; the times after it are read with the rest. */
function MarkWords({ word }: { word: string }): JSX.Element {
  const at = word.indexOf(':') + 1
  return (
    <>
      {' · '}
      <strong>{at === 0 ? word : word.slice(0, at)}</strong>
      {at === 0 ? '' : word.slice(at)}
    </>
  )
}

function RowActs({
  item,
  words,
  onAsk,
}: {
  item: TimeItem
  words: string
  onAsk: AskFor
}): JSX.Element | null {
  const { timeLine } = o.job
  if (!item.canStrike && !item.canSendBack) return null
  return (
    <p class="o-row-acts">
      {item.canSendBack && (
        <LinkButton
          label={`${timeLine.sendBack}: ${words}`}
          onPress={() => onAsk({ act: 'send_back', hashes: [item.hash], words })}
        >
          {timeLine.sendBack}
        </LinkButton>
      )}
      {item.canStrike && (
        <LinkButton
          label={`${timeLine.strike}: ${words}`}
          onPress={() => onAsk({ act: 'strike', hash: item.hash, words })}
        >
          {timeLine.strike}
        </LinkButton>
      )}
      <LinkButton
        label={`${timeLine.note}: ${words}`}
        onPress={() => onAsk({ act: 'note', about: [item.hash], words })}
      >
        {timeLine.note}
      </LinkButton>
    </p>
  )
}
