// What a decision about holes says of their room, one sentence a line. Fetched with its page.
import { listed } from './format.ts'

type Said = (at: readonly string[], of: (name: string) => string) => string

/** `at` are the line's things by their labels, `of` its figures by name. */
export const holeLines: Readonly<Record<string, Said>> = {
  holes_own_edge_short: (at) => `Edge too near for its own size: ${listed(at)}. Ask the maker.`,
  holes_own_pitch_short: (at) => `Neighbours too near for its own size: ${listed(at)}. Ask the maker.`,
  layer_needs: ([layer = ''], of) =>
    `The next size, ${of('rivet')}, wants ${of('edge')} to the edge of the ${layer} and ${of('pitch')} to its neighbours.`,
  layer_short: ([hole = '', layer = ''], of) =>
    `${hole}: ${of('edge')} to the edge of the ${layer}, ${of('minimum')} are needed.`,
  measure_room: (at) => `Read the edge at ${listed(at)} before drilling it up.`,
  neighbours_checked: ([hole = '', ...others], of) =>
    `${hole} goes up: ${listed(others)} checked again, ${of('pitch')} to the nearest, ${of('minimum')} needed.`,
  neighbours_short: ([hole = '', ...others], of) =>
    `${hole}: ${of('pitch')} to the nearest of ${listed(others)}, ${of('minimum')} are needed.`,
}
