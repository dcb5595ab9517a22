// The job page once it is filed, and what the office's own acts write.
import { describe, expect, test } from 'vitest'
import { assignDraft, placeDraft } from '../../src/core/views/office_drafts.ts'
import type { RegisterLine } from '../../src/core/views/office_filing.ts'
import { o } from '../../src/ui/words/office_en.ts'
import { ADA, hashAt, JOB, logOf, MARA, type Made, METHOD, OPENED, PIM } from './a_job.ts'
import { byOffice, first, gap, itemsOf, jobOf, tick } from './made_job.ts'

describe('filed', () => {
  const file: Made = { kind: 'file', by: ADA, body: { heads: [], reason: 'no cure' } }
  const line = (file_hash: string, dossier: string, filed_ms: number): RegisterLine => ({
    ...{ job: JOB, dossier, filed_ms, reason: 'no cure', file_hash, earlier: [] },
  })

  test('is said by the register, and not by a file entry that came back without its dossier', () => {
    expect(jobOf([file], [], [])).toMatchObject({ filing: { at: 'not_filed' } })
    expect(jobOf([file], [], [{ ...line(first([file]), 'd', 1), job: 'another' }]).filing.at).toBe(
      'not_filed',
    )
  })

  test('is not said either way until the register is read', () => {
    expect(jobOf([file]).filing.at).toBe('unheard')
  })

  test('names the newest dossier, why it is incomplete, and what came after it', () => {
    const made = [tick('lock'), file, gap(40), tick('measure')]
    const hash = first(made, 1)
    const job = jobOf(made, [], [line(hash, 'old', 1), line(hash, 'new', 2)])
    expect(job.filing).toMatchObject({ at: 'filed', dossier: 'new', reason: 'no cure' })
    expect(job.filing.at === 'filed' && job.filing.after.size).toBe(2)
    expect(itemsOf(job).map((item) => item.afterFiling)).toEqual([
      true,
      true,
      false,
      false,
      false,
      false,
      false,
    ])
  })

  test('has nothing after it until its file entry has been pulled', () => {
    const job = jobOf([tick('lock')], [], [line('f'.repeat(64), 'new', 2)])
    expect(itemsOf(job).some((item) => item.afterFiling)).toBe(false)
  })

  test('says in words what the dossier does not hold', () => {
    expect(o.filed.after(3)).toBe('3 entries came after filing; they are not in the dossier.')
    expect(o.filed.after(1)).toBe('1 entry came after filing; it is not in the dossier.')
  })
})

describe('what the office writes', () => {
  test('replaces the standing values of its register, and no others', () => {
    const place = byOffice({ kind: 'place', body: { place: 'Lift 2', over: [] } })
    const job = jobOf([place])
    expect(placeDraft(job.state, ' Bay 4 ').body).toEqual({ place: 'Bay 4', over: [first([place])] })
    expect(assignDraft(job.state, PIM, true).body).toEqual({ person: PIM, on: true, over: [] })
    expect(assignDraft(job.state, MARA, false).body).toMatchObject({ over: [hashAt(logOf(OPENED), 2)] })
  })

  test('the head of the page follows the registers', () => {
    expect(jobOf([]).head).toMatchObject({ order: '214', assigned: [MARA], closed: false, methods: [METHOD] })
  })
})
