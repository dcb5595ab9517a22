// What the job page has asked for: the act whose sheet is open.
import type { AcceptKey } from '../../core/views/office_findings.ts'
import type { PhotoView } from '../../core/views/office_photos.ts'
import type { SignView, StepView } from '../../core/views/office_steps.ts'

/** `words` says what the act is about, as the page showed it. */
export type JobAsk =
  | { readonly act: 'strike'; readonly hash: string; readonly words: string }
  | { readonly act: 'send_back'; readonly hashes: readonly string[]; readonly words: string }
  | { readonly act: 'accept'; readonly key: AcceptKey; readonly words: string }
  | { readonly act: 'admit'; readonly hashes: readonly string[]; readonly words: string }
  | { readonly act: 'note'; readonly about: readonly string[]; readonly words: string }
  | { readonly act: 'close' | 'reopen'; readonly words: string }
  | { readonly act: 'place' | 'people' | 'pin' | 'file' | 'addendum' }
  | { readonly act: 'sign'; readonly step: StepView; readonly sign: SignView }
  | { readonly act: 'photo'; readonly photo: PhotoView; readonly name: string }

export type AskFor = (ask: JobAsk) => void
