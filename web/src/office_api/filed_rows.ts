// Dossiers and filed jobs, as the office's routes answer them.

export type Dossier = {
  readonly dossier: string
  readonly sha256: string
  readonly seal_fingerprint: string
  readonly bytes: number
}

export type SealedDossier = Dossier & { readonly filed_ms: number; readonly reason: string }

export type FoundBy = {
  readonly field: 'order' | 'vin' | 'part' | 'vehicle' | 'lot' | 'person'
  readonly said: string
}

export type FiledRow = SealedDossier & {
  readonly job: string
  readonly order: string
  readonly vin: string
  readonly vehicle: string
  readonly part: string
  /** The hash of its `file` entry. */
  readonly file_hash: string
  /** Entries that came since; they are not in the dossier. */
  readonly after_filing: number
  readonly late_ms: number | null
  /** Dossiers that this one supersedes, the newest first. */
  readonly earlier: readonly SealedDossier[]
  readonly found_by: readonly FoundBy[]
}

export type FiledPage = { readonly filed: readonly FiledRow[]; readonly more: boolean }

/** `after`: the dossier that the page before ended with. */
export type FiledSearch = {
  readonly words: string
  readonly from_ms?: number
  readonly until_ms?: number
  readonly after?: string
}
