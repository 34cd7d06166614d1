/** The print centre's API: a package is made by a job; its pages can be looked at before and after. */

import { type Job, packageRequest } from '@finwright/plan/protocol/wire.ts'
import { answerKey } from '@finwright/plan/protocol/work.ts'
import { planText } from '@finwright/plan/text/write-plan.ts'
import { type Zippable, zipSync } from 'fflate'
import { attachmentNamed } from '../files/handlers.ts'
import { notFound, Refusal } from '../http/refusal.ts'
import { act, change, json, type Question, query, type Reply, type RouteTable, wholeNumber } from '../http/route.ts'
import { fileStem, zipHeaders } from '../plans/handlers.ts'
import { planHead } from '../plans/plan-head.ts'
import type { Services } from '../services.ts'

export const packageRoutes: RouteTable = {
  'POST /api/plans/:id/package': change(packageRequest, ({ paper = 'both' }, question, services) =>
    json(askPackage(question, paper, services), 202),
  ),
  'GET /api/plans/:id/package.zip': query(packageZip),
  'GET /api/jobs/:job': query((question, services) => json(jobOf(question, services))),
  'DELETE /api/jobs/:job': act(cancelJob),
  'GET /api/jobs/:job/package.zip': query((question, services) => zipped(jobOf(question, services), services)),
  'GET /api/jobs/:job/files/:file': query(oneFile),
  'GET /api/jobs/:job/documents/:document/pages/:page': query(onePage),
}

type PaperChoice = Job['paper']

function askPackage(question: Question, paper: PaperChoice, services: Services): Job {
  const head = planHead(question, services)
  const { record } = services.ledger.standing(head)
  const date = new Date().toISOString().slice(0, 10)
  const task = { text: planText(record.plan), files: textsOf(record.files, services), paper, date }
  const key = `${head.id} ${answerKey(record)} ${paper} ${date}`
  const id = services.jobs.ask({ plan: head.id, revision: head.revision, key, task })
  if (id === null) throw tooManyJobs()
  return services.jobs.find(id)!
}

/** Files that are text; a plan names no others. */
function textsOf(files: { readonly [name: string]: { readonly sha256: string } }, { contents }: Services) {
  const decoder = new TextDecoder('utf-8', { fatal: true })
  const texts: { [name: string]: string } = {}
  for (const [name, { sha256 }] of Object.entries(files)) {
    const bytes = contents.read(sha256)
    try {
      if (bytes !== undefined && name.toLowerCase().endsWith('.csv')) texts[name] = decoder.decode(bytes)
    } catch {
      // Not UTF-8: the plan reader says that the file cannot be read.
    }
  }
  return texts
}

function jobOf({ param }: Question, { jobs }: Services): Job {
  const job = jobs.find(param('job'))
  if (job === undefined)
    throw notFound('job', param('job'), 'Finished ones are forgotten after a while: ask for the package again.')
  return job
}

async function packageZip(question: Question, services: Services): Promise<Reply> {
  const paper = question.search.get('paper') ?? 'both'
  if (paper !== 'a4' && paper !== 'letter' && paper !== 'both') throw noPaper(paper)
  const { id } = askPackage(question, paper, services)
  await services.jobs.finished(id)
  const job = services.jobs.find(id)
  if (job === undefined) throw notFound('job', id, 'Ask for the package again.')
  return zipped(job, services)
}

function zipped(job: Job, { jobs, ledger }: Services): Reply {
  if (job.state !== 'done') throw notDone(job)
  const entries: Zippable = {}
  for (const { path, bytes } of jobs.files(job.id)) entries[path] = [bytes, { level: path.endsWith('.pdf') ? 0 : 6 }]
  const head = ledger.find(job.plan, 'plan')
  const stem = `${fileStem(head?.name ?? '')}-package`
  return { bytes: zipSync(entries, { mtime: new Date(head?.changed ?? 0) }), headers: zipHeaders(stem) }
}

function cancelJob(question: Question, services: Services): Reply {
  const { id } = jobOf(question, services)
  services.jobs.cancel(id)
  return json(services.jobs.find(id) ?? jobOf(question, services))
}

/** By its place in the job's list of files. */
function oneFile(question: Question, services: Services): Reply {
  const job = jobOf(question, services)
  const place = wholeNumber(question.param('file'), 0)
  const file = place === null ? undefined : services.jobs.files(job.id)[place]
  if (file === undefined) throw notFound('file', question.param('file'), 'The job lists its files; they count from 0.')
  const name = file.path.split('/').at(-1)!
  const ending = name.split('.').at(-1)!
  const types: { readonly [ending: string]: string } = {
    pdf: 'application/pdf',
    svg: 'image/svg+xml',
    dxf: 'image/vnd.dxf',
  }
  return {
    bytes: file.bytes,
    headers: {
      'content-type': types[ending] ?? 'application/octet-stream',
      'content-disposition': attachmentNamed(name),
    },
  }
}

function onePage(question: Question, services: Services): Reply {
  const job = jobOf(question, services)
  const document = wholeNumber(question.param('document'), 0)
  const page = wholeNumber(question.param('page'), 0)
  const svg = document === null || page === null ? undefined : services.jobs.page(job.id, document, page)
  if (svg === undefined)
    throw notFound('page', question.param('page'), 'The job lists its documents and pages; they count from 0.')
  return {
    bytes: svg,
    headers: { 'content-type': 'image/svg+xml; charset=utf-8', 'cache-control': 'private, max-age=3600' },
  }
}

/** The issues of a plan that cannot be made are the answer; else the job's state is. */
const notDone = ({ state, issues }: Job): Refusal =>
  state === 'failed' && issues.length > 0
    ? new Refusal(422, issues)
    : new Refusal(409, [
        {
          code: 'server/job-not-done',
          path: '',
          value: state,
          message: `The package is not there: its job is ${state}.`,
          hint: state === 'cancelled' ? 'Ask for the package again.' : 'Wait until the job is done.',
        },
      ])

const noPaper = (paper: string): Refusal =>
  new Refusal(400, [
    {
      code: 'server/no-paper',
      path: 'paper',
      value: paper.slice(0, 40),
      message: `'paper' in the address is '${paper.slice(0, 40)}'; it must be a4, letter or both.`,
      hint: 'Write paper=a4, for example.',
    },
  ])

const tooManyJobs = (): Refusal =>
  new Refusal(503, [
    {
      code: 'server/too-many-jobs',
      path: '',
      value: null,
      message: 'Too many packages wait to be made already.',
      hint: 'Wait until one is done, or cancel one.',
    },
  ])
