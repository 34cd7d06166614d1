/** The files' API: bytes go in once; the command `files.attach` then names them beside a plan. */
import { fileLimits } from '@finwright/plan/protocol/commands/file.ts'
import { notFound } from '../http/refusal.ts'
import { json, query, type RouteTable, upload, wholeNumber } from '../http/route.ts'
import { planHead } from '../plans/plan-head.ts'

export const fileRoutes: RouteTable = {
  'POST /api/files': upload(fileLimits.bytes, (bytes, { contents }) => json(contents.keep(bytes), 201)),
  'GET /api/files/:sha256': query((question, { contents }) => {
    const sha256 = question.param('sha256')
    const bytes = contents.read(sha256)
    if (bytes === undefined) throw notFound('file content', sha256, 'It was not uploaded, or swept away unused.')
    return { bytes, headers: { ...fileHeaders(sha256), 'cache-control': 'private, max-age=31536000, immutable' } }
  }),
  'GET /api/plans/:id/files/:name': query((question, services) => {
    const head = planHead(question, services)
    const name = question.param('name')
    const revision = wholeNumber(question.search.get('revision'), head.revision)
    const record = revision === null ? undefined : services.ledger.at(head, revision)
    const file = record !== undefined && Object.hasOwn(record.files, name) ? record.files[name] : undefined
    const bytes = file === undefined ? undefined : services.contents.read(file.sha256)
    if (bytes === undefined) throw notFound('file', name, 'Look at the list of files of this plan.')
    return { bytes, headers: fileHeaders(name) }
  }),
}

/** Shown by the page as what they are; saved, never run, when opened by themselves. */
const types: { readonly [ending: string]: string } = {
  csv: 'text/csv; charset=utf-8',
  txt: 'text/plain; charset=utf-8',
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  webp: 'image/webp',
}

const fileHeaders = (name: string) => ({
  'content-type': types[name.split('.').at(-1)?.toLowerCase() ?? ''] ?? 'application/octet-stream',
  'content-disposition': attachmentNamed(name),
  'cache-control': 'private, no-cache',
})

/** RFC 6266, with the name in UTF-8 (RFC 8187). */
export const attachmentNamed = (name: string): string =>
  `attachment; filename*=UTF-8''${encodeURIComponent(name).replace(/['()*!]/g, (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`)}`
