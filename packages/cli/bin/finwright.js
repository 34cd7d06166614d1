#!/usr/bin/env node
/** Starts the command line; bundles the sources first when the bundle is missing or older than they are. */
import { pathToFileURL } from 'node:url'
import { currentBundle } from '../build.js'

const { main } = await import(pathToFileURL(await currentBundle()).href)
process.exitCode = await main(process.argv.slice(2))
