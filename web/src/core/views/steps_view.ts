/** The list of all steps: by method and stage, each with where it stands, and those that are free now. */
import { type Card, methodsOf, type StepPlace } from './card.ts'
import { isFree, nextAct, type StepStanding, standingOf } from './statuses.ts'
import { contradictionsOf } from './two_values_view.ts'

export type ListedStep = {
  readonly standing: StepStanding
  readonly next: boolean
  /** Two people said different things here. */
  readonly twoSaid: boolean
}
export type ListedStage = {
  readonly number: number
  readonly title: string
  readonly steps: readonly ListedStep[]
  readonly done: number
  readonly all: number
}
export type ListedMethod = { readonly title: string; readonly stages: readonly ListedStage[] }

/** Which steps are listed: all, those that can be worked on now, those put off, or the hold points. */
export type Listing = 'all' | 'free' | 'later' | 'holds'

export function listedSteps(card: Card, listing: Listing): readonly ListedMethod[] {
  const next = nextAct(card)?.place
  const said = new Set(contradictionsOf(card).map((one) => one.place))
  const listed = card.steps.map((place) => ({
    standing: standingOf(card, place),
    next: place === next,
    twoSaid: said.has(place),
  }))
  return methodsOf(card)
    .map((method) => ({
      title: method.title,
      stages: stagesOf(
        listed.filter((one) => one.standing.place.method === method),
        listing,
      ),
    }))
    .filter((method) => method.stages.length > 0)
}

function stagesOf(steps: readonly ListedStep[], listing: Listing): readonly ListedStage[] {
  const numbers = [...new Set(steps.map((one) => one.standing.place.stage.number))]
  return numbers
    .map((number) => {
      const here = steps.filter((one) => one.standing.place.stage.number === number)
      return {
        number,
        title: here[0]?.standing.place.stage.title ?? '',
        steps: here.filter((one) => isListed(one.standing, listing)),
        done: here.filter((one) => one.standing.place.state.done !== '').length,
        all: here.length,
      }
    })
    .filter((stage) => stage.steps.length > 0)
}

function isListed(standing: StepStanding, listing: Listing): boolean {
  switch (listing) {
    case 'all':
      return true
    case 'free':
      return isFree(standing)
    case 'later':
      return standing.later
    case 'holds':
      return standing.place.step.hold
  }
}

export function listedCount(card: Card, listing: Listing): number {
  return card.steps.filter((place: StepPlace) => isListed(standingOf(card, place), listing)).length
}
