/** The main job on the demo: assesses it, writes its package, and says where it is. */
import { spawnSync } from 'node:child_process'

const finwright = 'packages/cli/bin/finwright.js'
const plan = 'examples/demo.fincan.json'
const out = 'out/demo'

const { status } = spawnSync(process.execPath, [finwright, 'sheets', plan, '--out', out], { stdio: 'inherit' })
process.exit(status ?? 1)
