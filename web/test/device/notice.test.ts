// What a push shows on a locked screen.
import { expect, test } from 'vitest'
import { noticeOf } from '../../src/sw/notice.ts'

test('a push shows its moment and opens its path', () => {
  const notice = noticeOf('{"moment":"due","path":"/job/1","name":"Mara Ilves"}')
  expect(notice.title).toBe('Something is due')
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
