// What entries are called, how rivets stand, what they leave and are marked with, and what is found in a record.
import type { Kind, Mark, Piece } from '../../core/entries.ts'
import type { FindingCode, PlaceInCount } from '../../core/state.ts'

export const kinds: Record<Kind, string> = {
  open: 'job opened',
  assign: 'assigned',
  place: 'place',
  pin: 'methods pinned',
  close: 'job closed',
  reopen: 'job opened again',
  file: 'filed',
  aside: 'set aside',
  admit: 'admitted',
  accept: 'accepted',
  send_back: 'sent back',
  tick: 'tick',
  text: 'text',
  choice: 'choice',
  reading: 'reading',
  photo: 'photo',
  tally: 'rivet',
  lot: 'lot',
  heat: 'heat run',
  note: 'note',
  deviation: 'deviation',
  countersign: 'countersign',
  strike: 'strike',
  result: 'result',
  clock: 'clock',
  heard: 'call heard',
  condition: 'condition looked at',
  later: 'put off',
}

export const pieces: Record<Piece, string> = { head: 'head', mandrel: 'mandrel', shank: 'shank' }

export const marks: Record<Mark, string> = {
  damaged_hole: 'damaged hole',
  lost: 'lost inside',
  found: 'found',
}

export const findings: Record<FindingCode, string> = {
  two_values: 'two values stand',
  over_without_effect: 'a correction that points at nothing',
  strike_without_effect: 'a strike without effect',
  fork: 'two records with one number',
  open_ask: 'done with something still open',
  outside_limits: 'outside its limits',
  stop_option: 'an answer that stops the work',
  wrong_lot: 'wrong material',
  expired_lot: 'expired lot',
  lost_piece: 'a lost piece, not found',
  damaged_hole: 'damaged hole',
  found_without_lost: 'found, but never lost',
  void_countersign: 'a countersign that does not count',
  two_runs: 'two heat runs of one zone',
  soak_short: 'soak too short',
  over_maximum: 'over the maximum',
  clock_changed: 'the clock was changed',
  picked_person: 'signed from a list, without PIN',
  same_device: 'signed on the same device',
  run_unknown: 'belongs to a heat run that is not here',
  unknown_position: 'a position that the method does not know',
  stale_result: 'worked out from older records',
  missing_method: 'method not here',
  made_under_other_revision: 'recorded under another revision',
  position_beyond: 'a rivet set before the one before it',
  condition_gone: 'a condition that no longer holds',
  nothing_to_compare: 'no earlier value to compare with',
}

export const ladder: Record<PlaceInCount, string> = {
  untouched: 'not started',
  hole_checked: 'hole checked',
  rivet_seated: 'rivet seated',
  set: 'set',
  set_and_checked: 'set and checked',
  in_place: 'in place',
  mandrel_out: 'mandrel out',
  head_drilled: 'head drilled',
  head_off: 'head off',
  shank_out: 'shank out',
  lost: 'lost inside',
}
