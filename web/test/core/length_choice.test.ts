// The choice of a rivet length where the rows do not decide: what is asked, what may be chosen, what is recorded.
import { describe, expect, it } from 'vitest'
import type { Question } from '../../src/core/computations/question.ts'
import {
  askingOf,
  chosenIn,
  chosenValues,
  LEFT_OPEN,
  lengthsOf,
  unchosen,
} from '../../src/core/views/length_choice.ts'

const mm = (value: number, decimals: number) => ({ kind: 'quantity', value, unit: 'mm', decimals }) as const
const ROWS = [
  { length: 100, low: 45, high: 65 },
  { length: 120, low: 65, high: 85 },
  { length: 140, low: 85, high: 105 },
]

/** Laminate of header, post and foot on 3.00 of flange and 1.20 of bondline, mm. */
function asked(header: number, post: number, foot: number, rows = ROWS): Question {
  const at = Object.entries({ header, post, foot })
  return {
    computation: 'grip',
    groups: ['header', 'post', 'foot'].map((id) => ({ id, positions: [] })),
    inputs: {
      laminate: { kind: 'points', at, unit: 'mm', decimals: 2 },
      bondline: { kind: 'points', at: [['a', 120]], unit: 'mm', decimals: 2 },
      flange: mm(300, 2),
      lengths: { kind: 'table', rows, unit: 'mm', decimals: 1 },
    },
  }
}

const standings = (question: Question) => lengthsOf(question)?.standings ?? []
const groups = (found: ReturnType<typeof askingOf>) => found.map(({ grip }) => grip.group)

describe('a length', () => {
  it('is asked for on a border, not where a row holds the grip, and not where none does', () => {
    // 6.50 is a border; 7.40 lies in 12 mm; 13.20 is over every row.
    expect(groups(askingOf(standings(asked(230, 320, 900))))).toEqual(['header'])
  })

  it('is chosen only among the rows that are offered, or left open by name', () => {
    const found = standings(asked(230, 320, 320))
    expect(groups(unchosen(found, {}))).toEqual(['header'])
    expect(groups(unchosen(found, { header: 140 }))).toEqual(['header'])
    expect(unchosen(found, { header: 120 })).toEqual([])
    expect(unchosen(found, { header: LEFT_OPEN })).toEqual([])
  })

  it('is recorded as a figure of the result, and read from there again', () => {
    const values = chosenValues(asked(230, 430, 320), { header: 100, post: LEFT_OPEN, foot: 140 })
    expect(values).toEqual([{ name: 'chosen_header', value: 100, unit: 'mm', decimals: 1 }])
    expect(chosenIn([...values, mmFigure('length_foot', 120)])).toEqual({ header: 100 })
  })

  it('is no matter of a range whose length nobody named', () => {
    expect(lengthsOf(asked(230, 320, 320, [{ length: 0, low: 65, high: 85 }]))).toBeUndefined()
  })
})

function mmFigure(name: string, value: number) {
  return { name, value, unit: 'mm', decimals: 1 }
}
