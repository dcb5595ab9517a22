// What a push shows on a locked screen.
import { expect, test } from 'vitest'
import { noticeOf } from '../../src/sw/notice.ts'

test('a push shows its moment and opens its path', () => {
  const notice = noticeOf('{"moment":"due","path":"/job/1","name":"Mara Ilves"}')
  expect(notice.title).toBe('Due now')
  expect(notice.data.path).toBe('/job/1')
  expect(JSON.stringify(notice)).not.toContain('Mara')
})

test.each(['', 'no json', '[]', '{"moment":7}', '{"moment":"unheard_of"}'])(
  '%j still shows something',
  (text) => {
    expect(noticeOf(text).title).toBe('News on a job card')
  },
)

test.each(['//elsewhere.example', 'https://elsewhere.example/', '/\\elsewhere', 'javascript:alert(1)'])(
  'a push cannot open %s',
  (path) => {
    expect(noticeOf(JSON.stringify({ moment: 'due', path })).data.path).toBe('/')
  },
)

test.each([
  ['run', 'read', 'due', 'Due now', 'Heat run: read the sensors.'],
  ['run', 'soaked', 'five_min', 'Due in 5 minutes', 'Heat run: the soak should be over. Readings decide.'],
  ['run', 'turn_down', 'overdue', 'Overdue', 'Heat run: turn the next pad down.'],
  ['sign', 'sign', 'waits', 'Waits for your name', 'A hold point waits to be countersigned.'],
])('a call of %s, %s, %s has its words', (kind, act, moment, title, body) => {
  const path = '/job/10000000-0000-4000-8000-000000000001/run/ab12'
  const notice = noticeOf(JSON.stringify({ job: '10000000', kind, act, moment, path }))
  expect(notice).toMatchObject({ title, body, data: { path } })
})

test('an overdue act takes the place of the same act when it was due, and sounds again', () => {
  const call = { job: '1', kind: 'run', act: 'read', path: '/job/1/run/a' }
  const [due, overdue] = ['due', 'overdue'].map((moment) => noticeOf(JSON.stringify({ ...call, moment })))
  expect(due?.tag).toBe(overdue?.tag)
  expect(overdue?.renotify).toBe(true)
  expect(noticeOf(JSON.stringify({ ...call, path: '/job/1/run/b' })).tag).not.toBe(due?.tag)
})
