/** The one way the store says no: what was not written, and why. */

export type StoreFaultCode = 'full' | 'closed' | 'lost'

const SENTENCES: Record<StoreFaultCode, string> = {
  full: 'store: no room on this phone; the record was not kept. Free some space and record it again.',
  closed: 'store: the browser closed the store and it did not open again; the record was not kept.',
  lost: 'store: what was read back is not what was written; the record was not kept.',
}

export class StoreFault extends Error {
  readonly code: StoreFaultCode

  constructor(code: StoreFaultCode, options?: ErrorOptions) {
    super(SENTENCES[code], options)
    this.name = 'StoreFault'
    this.code = code
  }
}
