// What a request to the office comes back as: a value, a refusal in words, or silence.

/** A line or a member of a file that the server could not take; line 0 is unknown. */
export type FileFault = { readonly line: number; readonly field: string; readonly message: string }

/** A refusal as the server words it; `status` is the HTTP status, the rest stands in its JSON. */
export type Refusal = {
  readonly status: number
  readonly code: string
  readonly message: string
  readonly field: string
  readonly faults: readonly FileFault[]
  readonly retry_s: number
}

export type Answer<T> =
  | { readonly kind: 'value'; readonly value: T }
  | { readonly kind: 'refused'; readonly refusal: Refusal }
  | { readonly kind: 'silent' }
  | { readonly kind: 'cancelled' }

export function isValue<T>(answer: Answer<T>): answer is { readonly kind: 'value'; readonly value: T } {
  return answer.kind === 'value'
}

export function mapAnswer<T, U>(answer: Answer<T>, change: (value: T) => U): Answer<U> {
  return answer.kind === 'value' ? { kind: 'value', value: change(answer.value) } : answer
}

const text = (value: unknown): string => (typeof value === 'string' ? value : '')
const count = (value: unknown): number => (typeof value === 'number' && Number.isFinite(value) ? value : 0)

function faultsOf(value: unknown): FileFault[] {
  if (!Array.isArray(value)) return []
  return value.map((fault: { line?: unknown; field?: unknown; message?: unknown; mend?: unknown }) => ({
    line: count(fault.line),
    field: text(fault.field),
    message: text(fault.message) || text(fault.mend),
  }))
}

/** Reads a refusal out of any error body; a body that is none becomes `not_understood`. */
export function refusalOf(status: number, body: unknown): Refusal {
  const found = (typeof body === 'object' && body !== null ? body : {}) as Record<string, unknown>
  return {
    status,
    code: text(found.code) || 'not_understood',
    message: text(found.message),
    field: text(found.field),
    faults: faultsOf(found.faults),
    retry_s: count(found.retry_s),
  }
}
