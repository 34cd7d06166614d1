/** The server as a program: what it prints, where it keeps plans, how it refuses to start, how it ends. */
import { spawn, spawnSync } from 'node:child_process'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { dataFolder } from '../src/data-folder.ts'
import { FolderInUse, hold } from '../src/store/hold.ts'
import { examples, root, started, temporaryFolder } from './serving.ts'

const folder = temporaryFolder()
afterAll(() => folder.remove())
const data = (name: string) => join(folder.path, name)
const program = join(root, 'packages', 'server', 'bin', 'finwright-server.js')
const run = (...args: string[]) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], { encoding: 'utf8' })
  return { status, stdout, stderr }
}

test('the data folder is where the system keeps data of users', () => {
  const env = (more: { [name: string]: string } = {}) => more
  const folders = [
    dataFolder({ platform: 'linux', home: '/home/a', env: env() }),
    dataFolder({ platform: 'linux', home: '/home/a', env: env({ XDG_DATA_HOME: '/data' }) }),
    dataFolder({ platform: 'linux', home: '/home/a', env: env({ XDG_DATA_HOME: 'relative' }) }),
    dataFolder({ platform: 'darwin', home: '/Users/a', env: env() }),
    dataFolder({ platform: 'win32', home: 'C:\\Users\\a', env: env({ APPDATA: 'C:\\Users\\a\\AppData\\Roaming' }) }),
  ]
  expect(folders).toEqual([
    '/home/a/.local/share/finwright',
    '/data/finwright',
    '/home/a/.local/share/finwright',
    '/Users/a/Library/Application Support/finwright',
    'C:\\Users\\a\\AppData\\Roaming\\finwright',
  ])
})

test('it says its address and its folder, and ends when asked', async () => {
  const child = spawn(process.execPath, [program, '--data', data('said'), '--port', '0', '--demo'])
  let said = ''
  const ended = new Promise<number | null>((resolve) => child.once('exit', (code) => resolve(code)))
  await new Promise<void>((resolve) => {
    child.stdout.on('data', (chunk: Buffer) => {
      said += chunk.toString()
      if (said.includes('Ctrl-C')) resolve()
    })
  })
  expect(said).toMatch(/^Finwright runs at http:\/\/127\.0\.0\.1:\d+\/\nPlans are kept in .*said\n/)
  expect(existsSync(join(data('said'), 'server.json'))).toBe(true)
  const second = run('--data', data('said'), '--port', '0')
  expect([second.status, second.stdout]).toEqual([2, ''])
  expect(second.stderr).toContain(/http:\S+/.exec(said)![0])
  child.kill('SIGTERM')
  expect(await ended).toBe(0)
  expect(existsSync(join(data('said'), 'server.json'))).toBe(false)
})

describe('it does not start', () => {
  test('with a wrong option', () => {
    expect(run('--port', 'x')).toMatchObject({ status: 2, stdout: '', stderr: expect.stringContaining('0 to 65535') })
    expect(run('--colour')).toMatchObject({ status: 2, stderr: expect.stringContaining('--colour') })
    expect(run('--help')).toMatchObject({ status: 0, stdout: expect.stringContaining('--data DIR') })
  })

  test('where the port is taken, and leaves the folder free', async () => {
    const one = await started(data('port'))
    const refused = run('--data', data('other'), '--port', `${one.port}`)
    expect(refused).toMatchObject({ status: 2, stderr: expect.stringContaining(`Port ${one.port}`) })
    expect(existsSync(join(data('other'), 'server.json'))).toBe(false)
    await one.close()
  })

  test('where the folder is a file, or holds no database of ours', () => {
    writeFileSync(data('file'), '')
    expect(run('--data', data('file'))).toMatchObject({ status: 2, stderr: expect.stringContaining('cannot be used') })
    const broken = temporaryFolder()
    writeFileSync(
      join(broken.path, 'finwright.db'),
      'this is no database, but a text that somebody put there'.repeat(100),
    )
    expect(run('--data', broken.path, '--port', '0')).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('cannot be used'),
    })
    expect(readFileSync(join(broken.path, 'finwright.db'), 'utf8')).toContain('somebody put there')
    broken.remove()
  })
})

describe('one server a folder', () => {
  test('a second one in the same folder is refused with the address of the first', async () => {
    const one = await started(data('held'))
    await expect(started(data('held'))).rejects.toThrow(new FolderInUse(one.address))
    await one.close()
    await (await started(data('held'))).close()
  })

  test('one that was killed holds nothing', async () => {
    const place = temporaryFolder()
    const gone = { address: 'http://127.0.0.1:9/', token: 'gone' }
    for (const left of [JSON.stringify(gone), 'not JSON', '{"address":"http://example.com/","token":"x"}']) {
      writeFileSync(join(place.path, 'server.json'), left)
      const release = await hold(place.path, { address: 'http://127.0.0.1:1/', token: 'mine' })
      expect(JSON.parse(readFileSync(join(place.path, 'server.json'), 'utf8')).token).toBe('mine')
      release()
    }
    expect(existsSync(join(place.path, 'server.json'))).toBe(false)
    place.remove()
  })
})

test('the examples are where the tests look for them', () => {
  expect(existsSync(join(examples, 'demo.fincan.json'))).toBe(true)
})
