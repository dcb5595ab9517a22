// The methods page's own rules: the guide's Markdown, lines beside a fault, what an ask is said to hold to.
import { describe, expect, test } from 'vitest'
import type { Ask, StepDoc } from '../../src/core/method.ts'
import { linesAround } from '../../src/core/views/file_lines.ts'
import { blocksOf } from '../../src/core/views/markdown_blocks.ts'
import { askWords } from '../../src/ui/office/ask_words.ts'
import { METHOD } from './a_job.ts'

describe('the guide', () => {
  test('is read as headings, paragraphs, lists and code', () => {
    const text =
      '# A\n\nOne `two`\n*three* end.\n\n    bayleaf check\n\n```yaml whole\na:\n\n  b: 1\n```\n\n- x\n  more\n- **y**\n'
    expect(blocksOf(text)).toEqual([
      { as: 'heading', level: 1, text: 'A', id: 'a' },
      {
        as: 'paragraph',
        parts: [
          { as: 'text', text: 'One ' },
          { as: 'code', text: 'two' },
          { as: 'text', text: ' ' },
          { as: 'soft', text: 'three' },
          { as: 'text', text: ' end.' },
        ],
      },
      { as: 'code', text: 'bayleaf check' },
      { as: 'code', text: 'a:\n\n  b: 1' },
      { as: 'list', items: [[{ as: 'text', text: 'x more' }], [{ as: 'strong', text: 'y' }]] },
    ])
  })
})

describe('lines beside a fault', () => {
  test('are the one before, the line itself and the one after', () => {
    expect(linesAround('a\nb\nc\nd', 2)).toEqual([
      { number: 1, text: 'a' },
      { number: 2, text: 'b' },
      { number: 3, text: 'c' },
    ])
  })
  test('are none for the whole file and past its end', () => {
    expect(linesAround('a\nb', 0)).toEqual([])
    expect(linesAround('a\nb', 3)).toEqual([])
  })
})

describe('an ask in words', () => {
  const step = {
    ...(METHOD.stages[0]?.steps[0] as StepDoc),
    asks: [
      {
        kind: 'choice',
        id: 'found',
        name: 'cracks',
        options: [
          { id: 'none', name: 'none', stop: false },
          { id: 'some', name: 'some', stop: true },
        ],
      },
    ],
  } as StepDoc
  test('says its limits, its plausible range and its points', () => {
    const ask: Ask = {
      kind: 'reading',
      id: 'gap',
      name: 'gap',
      unit: 'mm',
      decimals: 1,
      min: 25,
      max: 45,
      plausible: [0, 200],
      points: [
        { id: 'a', name: 'left' },
        { id: 'b', name: 'right' },
      ],
    }
    expect(askWords(METHOD, step, ask).replaceAll('\u00a0', ' ')).toBe(
      'reading, 2.5 mm to 4.5 mm, plausible from 0.0 mm to 20.0 mm, at left and right',
    )
  })
  test('says when alone it is asked', () => {
    const ask: Ask = { kind: 'tick', id: 't', name: 't', when: { ask: 'found', option: 'some' } }
    expect(askWords(METHOD, step, ask)).toBe('tick, only if cracks is some')
  })
})
