// The tally reconciliation as a screen records it: over what counts, and not stale the moment after.
import { expect, test } from 'vitest'
import { dumps, type Json } from '../../src/core/canonical.ts'
import { sha256Hex } from '../../src/core/digest.ts'
import type { Draft, Entry, LadderState } from '../../src/core/entries.ts'
import { fold } from '../../src/core/fold/index.ts'
import type { ComputeAsk, MethodDoc } from '../../src/core/method.ts'
import { reconcileTally } from '../../src/core/reconcile.ts'
import { author, pen } from './writing.ts'

const ask: ComputeAsk = {
  kind: 'compute',
  id: 'pieces',
  name: 'Pieces',
  computation: 'tally_reconciliation',
  groups: ['post'],
}
const method: MethodDoc = {
  form: 1,
  id: 'rivets',
  title: 'Rivets (invented)',
  revision: '1',
  invented: true,
  conditions: [],
  groups: [{ id: 'post', name: 'Post', positions: ['P1', 'P2'] }],
  zones: [],
  materials: [],
  drawings: {},
  stages: [
    {
      id: 'out',
      title: 'Out',
      steps: [
        {
          id: 'count',
          title: 'Count the pieces',
          instruction: '',
          caution: '',
          tools: [],
          who: ['technician'],
          people: 1,
          needs: [],
          hold: false,
          hold_countersign: '',
          meanwhile: [],
          sets: [],
          clears: [],
          asks: [ask],
        },
      ],
    },
  ],
}
const digest = sha256Hex(dumps(method as unknown as Json))
const methods = { [digest]: method }

function rivet(position: string, state: LadderState): Draft {
  return { kind: 'tally', body: { position, generation: 0, state } }
}

function reconciled(log: readonly Entry[]) {
  return reconcileTally(method, ask, log, fold(methods, log))
}

function figure(log: readonly Entry[], name: string): number | undefined {
  return reconciled(log).values.find((value) => value.name === name)?.value
}

test('two rivets out with all their pieces are inside', () => {
  const write = pen(1, author(1, 'technician'))
  const log = [write(rivet('P1', 'shank_out')), write(rivet('P2', 'shank_out'))]
  expect(reconciled(log)).toMatchObject({ verdict: 'inside', inputs: log.map((entry) => entry.hash).sort() })
  expect(figure(log, 'taken_shank')).toBe(2)
})

test('a lost shank is outside until it is found', () => {
  const write = pen(1, author(1, 'technician'))
  const at = { position: 'P1', generation: 0 }
  const lost = write({ kind: 'tally', body: { ...at, mark: 'lost', piece: 'shank', lost: '' } })
  const log = [write(rivet('P1', 'shank_out')), lost]
  expect(reconciled(log).verdict).toBe('outside')
  expect(figure(log, 'difference_shank')).toBe(-1)
  const found = write({ kind: 'tally', body: { ...at, mark: 'found', piece: '', lost: lost.hash } })
  expect(reconciled([...log, found]).verdict).toBe('inside')
})

test('what was struck is not counted, and no position of another group is', () => {
  const write = pen(1, author(1, 'technician'))
  const wrong = write(rivet('P2', 'shank_out'))
  const struck = write({ kind: 'strike', body: { target: wrong.hash, reason: 'wrong position' } })
  const log = [write(rivet('P1', 'shank_out')), wrong, struck, write(rivet('H1', 'shank_out'))]
  expect(figure(log, 'owed_head')).toBe(1)
})

test('a result just recorded answers its ask, and is stale once the tally moves on', () => {
  const write = pen(1, author(1, 'technician'))
  const pin = pen(9, author(9, 'office'))({ kind: 'pin', body: { methods: [digest], over: [] } })
  const log = [pin, write(rivet('P1', 'shank_out')), write(rivet('P2', 'head_off'))]
  const step = { method: 'rivets', digest, step: 'count', ask: 'pieces', point: '' }
  const result = write({ kind: 'result', body: { ...step, ...reconciled(log), over: [] } })
  expect(fold(methods, [...log, result]).steps).toMatchObject([{ open: [] }])
  const later = write(rivet('P2', 'shank_out'))
  const state = fold(methods, [...log, result, later])
  expect(state.steps).toMatchObject([{ open: ['pieces'] }])
  expect(state.findings).toMatchObject([{ code: 'stale_result', hashes: [result.hash] }])
})
