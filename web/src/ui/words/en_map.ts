// Words of the fastener map. Fetched with it.
import type { Mark, Piece } from '../../core/entries.ts'
import { marks, pieces } from './en_kinds.ts'
import { count, plural } from './format.ts'

const NTH = ['', '1st', '2nd', '3rd']

export const mapWords = {
  title: 'All rivets',
  mapName: (group: string) => `Positions, ${group}`,
  closer: 'Closer',
  farther: 'Farther',
  nth: (n: number) => `${NTH[n] ?? `${n}th`} rivet`,
  leftIn: (left: number, of: number) => `${count(left)} of ${count(of)} left`,
  whole: (left: number, of: number) => `All groups: ${count(left)} of ${count(of)} left`,
  toAccount: 'to account for',
  of: (n: number) => `of ${count(n)}`,
  notAsked: 'not in this step',
  more: 'marks and more',
  previous: (position: string) => `Position ${position}`,
  moveOn: (position: string, state: string) => `${position}: ${state}`,
  outFirst: 'The one before goes out first',
  to: (position: string) => `To ${position}`,
  complete: 'every position is there',
  back: 'Back to the step',
  backToCard: 'Back to the card',
  damaged: 'Damaged hole',
  lost: 'Piece lost inside',
  lostOf: (piece: Piece) => `${pieces[piece]} lost inside`,
  foundOf: (piece: Piece | '') => `${piece === '' ? 'piece' : pieces[piece]} found`,
  lostAt: (position: string, piece: Piece | '') =>
    `${position}: ${piece === '' ? 'piece' : pieces[piece]} lost inside`,
  lostShort: (position: string, piece: Piece | '') =>
    `${position}: ${piece === '' ? 'piece' : pieces[piece]} lost`,
  lostMany: (n: number) => `${count(n)} lost inside`,
  lostWhich: (position: string) => `${position}: which piece is lost inside?`,
  foundTitle: (position: string) => `${position}: found`,
  foundKept: 'Lost and found both stay in the record. A photo of the piece proves the find.',
  markWords: (mark: Mark, piece: Piece | '') =>
    piece === '' || mark !== 'lost' ? marks[mark] : `${pieces[piece]} ${marks[mark]}`,
  photoOfFind: 'Photo of the find',
  later: 'Later',
  photo: (position: string) => `Photo of ${position}`,
  photos: (n: number) => `${count(n)} ${plural(n, 'photo', 'photos')} of this position`,
  noPhotos: 'no photo of this position',
  hole: 'Hole',
  holeDamaged: 'damaged',
  holeNothing: 'nothing marked',
  rivet: 'Rivet',
  onTheCar: 'the one found on the car',
  last: 'Last here',
  nobody: 'nobody yet',
  measured: 'Measured',
  goBack: (state: string) => `Back: strike “${state}”`,
  strikeMark: (mark: string) => `Strike “${mark}”`,
  othersState: (who: string) => `${who} recorded this: ${who} or the office can strike it.`,
  whyStrike: (what: string) => `Why is “${what}” struck?`,
  strikeReasons: ['Pressed by mistake', 'Wrong position', 'Not so after all'],
  ownReason: 'Another reason',
  strike: 'Strike it',
  states: 'Another state',
  statesOf: (position: string) => `${position}: which state?`,
  replace: 'Replace this rivet',
  replaceWhy: (position: string) => `${position}: why is it replaced?`,
  replaceReasons: ['It spins', 'Head stands proud', 'Mandrel did not lock'],
  replaceIt: 'Drilled out, replace',
  replaced: (position: string, nth: string, why: string) =>
    `${position}, ${nth}: ${why}. Drilled out, to be replaced.`,
  replaceLine:
    'It is recorded as taken out and owes its head, mandrel and shank; the new one begins with its hole.',
  stays: 'Stay here till the rivet is through',
  list: 'The same as a list',
  pieces: 'Pieces of rivets taken out',
  piecesLine: (owed: number, lost: number, piece: string) =>
    `${count(owed)} ${piece} owed${lost > 0 ? `, ${count(lost)} lost` : ''}`,
  piecesOf: { head: 'heads', mandrel: 'mandrels', shank: 'shanks' } as Record<Piece, string>,
  struckStays: 'Nothing is rubbed out: what is struck stays readable.',
  caution: 'The vehicle maker’s rivet instruction comes first.',
}
