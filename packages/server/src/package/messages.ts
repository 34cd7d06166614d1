/** Between the server and the thread that makes a package. */
import type { Issue } from '@finwright/core/issue.ts'
import type { PreviewDocument } from '@finwright/plan/protocol/wire.ts'

export interface PackageTask {
  readonly text: string
  readonly files: { readonly [name: string]: string }
  readonly paper: 'a4' | 'letter' | 'both'
  /** ISO date, printed on every page. */
  readonly date: string
}

export interface DrawnDocument extends PreviewDocument {
  /** One a page. */
  readonly svg: readonly string[]
}

export interface MadeFile {
  readonly path: string
  readonly bytes: Uint8Array
}

export type ThreadMessage =
  | { readonly kind: 'step'; readonly step: string; readonly document: boolean }
  | { readonly kind: 'documents'; readonly documents: readonly DrawnDocument[]; readonly of: number }
  | { readonly kind: 'done'; readonly files: readonly MadeFile[] }
  | { readonly kind: 'refused'; readonly issues: readonly Issue[] }
