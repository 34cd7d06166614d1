#!/usr/bin/env node
/** Starts the server; bundles the sources first when the bundle is missing or older than they are. */
import { dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { serverBundle } from '../build.js'

const dist = await serverBundle()
const { main } = await import(pathToFileURL(join(dist, 'main.js')).href)
process.exitCode = await main(process.argv.slice(2), {
  thread: pathToFileURL(join(dist, 'thread.js')),
  examples: join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..', 'examples'),
})
