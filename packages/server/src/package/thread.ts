/** The thread that makes one package: reads, assesses, draws, writes the PDFs. It ends when it is done, or is ended. */
import { parentPort, workerData } from 'node:worker_threads'
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { invariant } from '@finwright/core/issue.ts'
import { answer, type Report } from '@finwright/plan/protocol/work.ts'
import type { PlanDocument } from '@finwright/plan/read-plan.ts'
import type { PagedDocument } from '@finwright/sheets/documents.ts'
import { pageAsSvg } from '@finwright/sheets/drawing/svg.ts'
import { buildPackage } from '@finwright/sheets/package.ts'
import { correctionFor } from '@finwright/sheets/printer.ts'
import type { DrawnDocument, PackageTask, ThreadMessage } from './messages.ts'

const port = parentPort
invariant(port !== null, 'this file runs as a thread')
const say = (message: ThreadMessage): void => port.postMessage(message)

async function make(task: PackageTask): Promise<void> {
  const found = assessed(task)
  if (found === null) return
  const { document, assessment } = found
  const { design } = document
  const correction = design.kind === 'can' ? correctionFor(design) : null
  if (correction !== null && !correction.ok) return say({ kind: 'refused', issues: correction.issues })
  const pageSizes = task.paper === 'both' ? (['a4', 'letter'] as const) : [task.paper]
  let announced = 0
  const files = await buildPackage({
    assessment,
    design,
    revision: { hash: document.hash, date: task.date },
    units: document.complete.units,
    defaults: document.defaulted,
    pageSizes,
    onProgress: (step) => say({ kind: 'step', step, document: true }),
    onDocuments: (documents) => {
      if (announced === 0) announced = documents.length * pageSizes.length + (design.kind === 'can' ? 1 : 0)
      say({ kind: 'documents', documents: documents.map(drawn), of: announced })
    },
  })
  const bytesOf = (bytes: Uint8Array | string) => (typeof bytes === 'string' ? new TextEncoder().encode(bytes) : bytes)
  say({ kind: 'done', files: files.map(({ path, bytes }) => ({ path, bytes: bytesOf(bytes) })) })
}

function assessed({ text, files }: PackageTask): { document: PlanDocument; assessment: Assessment } | null {
  let document: PlanDocument | null = null
  let assessment: Assessment | null = null
  answer({ ticket: 0, key: '', text, files }, (report: Report) => {
    if (report.kind === 'step') say({ kind: 'step', step: report.step, document: false })
    if (report.kind === 'read') document = report.document
    if (report.kind === 'answer') assessment = report.assessment
    if (report.kind === 'refused') say({ kind: 'refused', issues: report.issues })
  })
  return document === null || assessment === null ? null : { document, assessment }
}

const drawn = ({ path, what, pages }: PagedDocument): DrawnDocument => ({
  path,
  what,
  pages: pages.map(({ title, width, height }) => ({ title, width, height })),
  svg: pages.map((page) => pageAsSvg(page)),
})

await make(workerData as PackageTask)
