// The sheet of one position: what is known of it, marks, a photo, another state, going back, replacing.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { PositionState } from '../../core/state.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { tallyMark } from '../../core/views/drafts.ts'
import { piecesToLose, positionFacts } from '../../core/views/map_view.ts'
import { canReplace, hasDamage, openLost, statesAhead } from '../../core/views/tally_view.ts'
import { positionWords } from '../parts/fastener_map_words.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { RivetMark } from '../parts/rivet_mark.tsx'
import { Sheet } from '../parts/sheet.tsx'
import { ladder } from '../words/en_kinds.ts'
import { mapWords } from '../words/en_map.ts'
import { capital } from '../words/format.ts'
import { paths } from './router.ts'
import type { Tally } from './tally_acts.ts'
import { PositionLines } from './tally_facts.tsx'
import { ReasonPart, StrikePart, type Struck } from './tally_strike.tsx'

export type SheetName = 'facts' | 'lost' | 'states' | 'replace' | 'found'

export type SheetProps = {
  card: Card
  place: StepPlace | undefined
  at: PositionState
  tally: Tally
  start: SheetName
  onClose: () => void
}

export function PositionSheet(props: SheetProps): JSX.Element {
  const { at, tally, start, onClose } = props
  const [part, setPart] = useState<SheetName>(start)
  const [struck, setStruck] = useState<Struck>()
  const { position } = at
  if (struck) {
    return (
      <Sheet title={mapWords.whyStrike(struck.words)} onClose={onClose}>
        <StrikePart struck={struck} tally={tally} onDone={onClose} />
      </Sheet>
    )
  }
  switch (part) {
    case 'lost':
      return (
        <Sheet title={mapWords.lostWhich(position)} onClose={onClose}>
          <LostKeys {...props} />
        </Sheet>
      )
    case 'states':
      return (
        <Sheet title={mapWords.statesOf(position)} onClose={onClose}>
          <StateKeys {...props} />
        </Sheet>
      )
    case 'replace':
      return (
        <Sheet title={mapWords.replaceWhy(position)} onClose={onClose}>
          <p>{mapWords.replaceLine}</p>
          <ReasonPart
            reasons={mapWords.replaceReasons}
            verb={mapWords.replaceIt}
            onReason={(why) =>
              void tally
                .replace(mapWords.replaced(position, mapWords.nth(at.generation), why))
                .then((kept) => kept && onClose())
            }
          />
        </Sheet>
      )
    case 'found':
      return (
        <Sheet title={mapWords.foundTitle(position)} onClose={onClose}>
          <p>{mapWords.foundKept}</p>
          <div class="keys">
            <KeyLink tone="main" mark="camera" href={paths.photoAt(props.card.job, position)}>
              {mapWords.photoOfFind}
            </KeyLink>
            <Key onPress={onClose}>{mapWords.later}</Key>
          </div>
        </Sheet>
      )
    case 'facts':
      return (
        <Sheet title={capital(positionWords(at, tally.shownTo))} onClose={onClose}>
          <FactsPart {...props} onPart={setPart} onStrike={setStruck} />
        </Sheet>
      )
  }
}

type PartProps = SheetProps & { onPart: (part: SheetName) => void; onStrike: (struck: Struck) => void }

function FactsPart(props: PartProps): JSX.Element {
  const { card, at, tally, onClose, onPart, onStrike } = props
  const facts = positionFacts(card, at)
  const mark = (draft: ReturnType<typeof tallyMark>) =>
    void tally.write([draft]).then((kept) => kept && onClose())
  return (
    <>
      <PositionLines card={card} at={at} facts={facts} />
      <div class="keys">
        {openLost(at).map(({ hash, piece }) => (
          <Key
            key={hash}
            onPress={() =>
              void tally.write([tallyMark(at, 'found', '', hash)]).then((kept) => kept && onPart('found'))
            }
          >
            {capital(mapWords.foundOf(piece))}
          </Key>
        ))}
        <KeyLink mark="camera" href={paths.photoAt(card.job, at.position)}>
          {mapWords.photo(at.position)}
        </KeyLink>
        {!hasDamage(at) && (
          <Key tone="stop" onPress={() => mark(tallyMark(at, 'damaged_hole'))}>
            <span class="map-mark-key">
              <RivetMark name="damaged_hole" />
              {mapWords.damaged}
            </span>
          </Key>
        )}
        <LostKeys {...props} />
        {tally.shownTo && statesAhead(at, tally.shownTo).length > 0 && (
          <Key onPress={() => onPart('states')}>{mapWords.states}</Key>
        )}
        {canReplace(at) && <Key onPress={() => onPart('replace')}>{mapWords.replace}</Key>}
        <BackKeys {...props} facts={facts} onStrike={onStrike} />
        {tally.to && (
          <Key pressed={tally.stays} onPress={() => tally.setStays(!tally.stays)}>
            {mapWords.stays}
          </Key>
        )}
      </div>
      <p class="label soft">{mapWords.caution}</p>
    </>
  )
}

function LostKeys({ at, tally, onClose }: SheetProps): JSX.Element {
  return (
    <div class="keys">
      {piecesToLose(at).map((piece) => (
        <Key
          key={piece}
          tone="stop"
          onPress={() => void tally.write([tallyMark(at, 'lost', piece)]).then((kept) => kept && onClose())}
        >
          <span class="map-mark-key">
            <RivetMark name="lost" />
            {capital(mapWords.lostOf(piece))}
          </span>
        </Key>
      ))}
    </div>
  )
}

function StateKeys({ at, tally, onClose }: SheetProps): JSX.Element {
  const states = tally.shownTo ? statesAhead(at, tally.shownTo) : []
  return (
    <div class="keys">
      {states.map((state) => (
        <Key key={state} onPress={() => void tally.state(state).then(onClose)}>
          <span class="map-mark-key">
            <RivetMark name={state} />
            {capital(ladder[state])}
          </span>
        </Key>
      ))}
    </div>
  )
}

type BackProps = PartProps & { facts: ReturnType<typeof positionFacts> }

/** Going back is a strike: of the state that decides, or of a mark. */
function BackKeys({ card, at, facts, onStrike }: BackProps): JSX.Element {
  const { deciding, marks } = facts
  const standing = [
    ...(deciding && at.state !== ''
      ? [{ known: deciding, words: ladder[at.state], key: mapWords.goBack(ladder[at.state]) }]
      : []),
    ...marks.flatMap(({ known, mark, piece }) => {
      const words = mapWords.markWords(mark, piece)
      return known ? [{ known, words, key: mapWords.strikeMark(words) }] : []
    }),
  ]
  return (
    <>
      {standing.map(({ known, words, key }) => (
        <Key key={known.entry.hash} mark="struck" onPress={() => onStrike({ card, known, words })}>
          {key}
        </Key>
      ))}
    </>
  )
}
