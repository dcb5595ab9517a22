// The acts of the job page that are one text: what each asks, and the entry that it makes.
import type { Draft } from '../../core/entries.ts'
import type { CardState } from '../../core/state.ts'
import {
  acceptDraft,
  admitDraft,
  lifeDraft,
  noteDraft,
  sendBackDraft,
  strikeDraft,
} from '../../core/views/office_drafts.ts'
import { DEVIATION } from '../../core/views/office_findings.ts'
import { o } from '../words/office_en.ts'
import type { JobAsk } from './job_ask.ts'

export type TextAct = {
  readonly title: string
  readonly about: string
  readonly note: string
  readonly label: string
  readonly key: string
  readonly tone: 'main' | 'stop'
  /** What to say when the text is missing; empty where it may be. */
  readonly lack: string
  draft(state: CardState, text: string): Draft
}

const words = o.job.acts
const REASON = { note: '', label: words.reason, tone: 'main', lack: o.act.needReason } as const

function acceptAct(ask: Extract<JobAsk, { act: 'accept' }>): TextAct {
  const title = ask.key.code === DEVIATION ? words.acceptDeviationTitle : words.acceptTitle
  const draft = (_: CardState, text: string): Draft => acceptDraft(ask.key, text)
  return { ...REASON, title, about: ask.words, note: words.acceptNote, key: words.acceptKey, draft }
}

function lifeAct(ask: Extract<JobAsk, { act: 'close' | 'reopen' }>): TextAct {
  const close = ask.act === 'close'
  return {
    ...REASON,
    title: close ? words.close : words.reopen,
    about: ask.words,
    label: close ? words.reasonOptional : words.reason,
    lack: close ? '' : o.act.needReason,
    key: close ? words.closeKey : words.reopenKey,
    draft: (state, text) => lifeDraft(state, ask.act, text),
  }
}

/** The text act of an ask; undefined for acts with a sheet of their own. */
export function textActOf(ask: JobAsk): TextAct | undefined {
  switch (ask.act) {
    case 'strike':
      return {
        ...REASON,
        title: words.strikeTitle,
        about: ask.words,
        note: words.strikeNote,
        key: words.strikeKey,
        tone: 'stop',
        draft: (_, text) => strikeDraft(ask.hash, text),
      }
    case 'send_back':
      return {
        ...REASON,
        title: words.sendBackTitle,
        about: ask.words,
        note: words.sendBackNote,
        label: words.remark,
        lack: o.act.needRemark,
        key: words.sendBackKey,
        draft: (_, text) => sendBackDraft(ask.hashes, text),
      }
    case 'accept':
      return acceptAct(ask)
    case 'admit':
      return {
        ...REASON,
        title: words.admitTitle,
        about: ask.words,
        note: words.admitNote,
        key: words.admitKey,
        draft: (_, text) => admitDraft(ask.hashes, text),
      }
    case 'note':
      return {
        ...REASON,
        title: words.note,
        about: ask.words,
        label: words.noteLabel,
        key: words.noteKey,
        lack: o.act.needRemark,
        draft: (_, text) => noteDraft(text, ask.about),
      }
    case 'close':
    case 'reopen':
      return lifeAct(ask)
    default:
      return undefined
  }
}
