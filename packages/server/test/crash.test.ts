/** The server killed in the middle of writing, as by a power cut of the process: what it acknowledged is there afterwards. */
import { type ChildProcess, spawn } from 'node:child_process'
import { join } from 'node:path'
import type { NewsReply, StandingPlan } from '@finwright/plan/protocol/wire.ts'
import Libsql from 'libsql'
import { afterAll, expect, test } from 'vitest'
import { asking, command, openExample, root, setField, started, temporaryFolder } from './serving.ts'

const folder = temporaryFolder()
afterAll(() => folder.remove())

const program = join(root, 'packages', 'server', 'bin', 'finwright-server.js')

function spawned(): Promise<{ readonly child: ChildProcess; readonly address: string }> {
  const child = spawn(process.execPath, [program, '--data', folder.path, '--port', '0'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  return new Promise((resolve, reject) => {
    let told = ''
    child.stdout!.on('data', (chunk: Buffer) => {
      told += chunk.toString()
      const address = /http:\/\/127\.0\.0\.1:\d+\//.exec(told)?.[0]
      if (address !== undefined) resolve({ child, address })
    })
    child.on('exit', (code) => reject(new Error(`ended with ${code}: ${told}`)))
  })
}

const died = (child: ChildProcess): Promise<void> => new Promise((resolve) => child.once('exit', () => resolve()))

test('kill -9 in the middle of writes loses no acknowledged command', async () => {
  let acknowledged = 1
  let id = ''
  for (const round of [1, 2, 3]) {
    const { child, address } = await spawned()
    const ask = asking({ address })
    if (id === '') id = (await openExample(ask)).id
    const gone = died(child)
    setTimeout(() => child.kill('SIGKILL'), 300 + 150 * round)
    let next = (await ask.get<StandingPlan>(`/api/plans/${id}`)).body.revision
    expect(next).toBeGreaterThanOrEqual(acknowledged)
    for (;;) {
      try {
        const sent = command(next, ...setField(['name'], `revision ${next + 1}`))
        const { status, body } = await ask.send<NewsReply>('POST', `/api/plans/${id}/commands`, sent)
        if (status !== 200) throw new Error(JSON.stringify(body))
        next = body.revision
        acknowledged = next
      } catch (problem) {
        if (!(problem instanceof TypeError)) throw problem
        break
      }
    }
    await gone
  }
  expect(acknowledged).toBeGreaterThan(20)
  const db = new Libsql(join(folder.path, 'finwright.db'))
  expect(db.prepare('PRAGMA integrity_check').get()).toMatchObject({ integrity_check: 'ok' })
  db.close()
  const serving = await started(folder.path)
  const { revision, record } = (await asking(serving).get<StandingPlan>(`/api/plans/${id}`)).body
  await serving.close()
  expect(revision).toBeGreaterThanOrEqual(acknowledged)
  expect(revision).toBeLessThanOrEqual(acknowledged + 3)
  expect(record.plan.name).toBe(`revision ${revision}`)
})
