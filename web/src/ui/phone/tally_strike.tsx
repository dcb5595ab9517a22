// Going back at a position: a strike with a reason, one press where the usual reasons say it.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { Card, Known } from '../../core/views/card.ts'
import { strike } from '../../core/views/drafts.ts'
import { Key } from '../parts/key.tsx'
import { RecordKey, useWords } from '../parts/words_form.tsx'
import { mapWords } from '../words/en_map.ts'
import { personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import type { Tally } from './tally_acts.ts'

export type Struck = { readonly card: Card; readonly known: Known; readonly words: string }

type StrikeProps = { struck: Struck; tally: Tally; onDone: () => void }

export function StrikePart({ struck, tally, onDone }: StrikeProps): JSX.Element {
  const { me } = usePhone()
  const { by } = struck.known.entry
  const own = me()
  if (own.by !== by && !own.as.includes('office')) {
    return <p>{mapWords.othersState(personName(struck.card, by))}</p>
  }
  return (
    <>
      <p class="soft">{mapWords.struckStays}</p>
      <ReasonPart
        reasons={mapWords.strikeReasons}
        verb={mapWords.strike}
        onReason={(why) =>
          void tally.write([strike(struck.known.entry.hash, why)]).then((kept) => kept && onDone())
        }
      />
    </>
  )
}

type ReasonProps = { reasons: readonly string[]; verb: string; onReason: (why: string) => void }

/** The usual reasons as keys; another one is written. */
export function ReasonPart({ reasons, verb, onReason }: ReasonProps): JSX.Element {
  const [own, setOwn] = useState(false)
  const input = useWords({ label: mapWords.ownReason, rows: 2 })
  if (own) {
    return (
      <>
        {input.field}
        <RecordKey input={input} onWords={onReason}>
          {verb}
        </RecordKey>
      </>
    )
  }
  return (
    <div class="keys">
      {reasons.map((why) => (
        <Key key={why} onPress={() => onReason(why)}>
          {why}
        </Key>
      ))}
      <Key onPress={() => setOwn(true)}>{mapWords.ownReason}</Key>
    </div>
  )
}
