/** Where plans are kept unless another folder is given: the place that the system has for a user's data. */
import { homedir } from 'node:os'
import { posix, win32 } from 'node:path'

interface System {
  readonly platform: string
  readonly home: string
  readonly env: { readonly [name: string]: string | undefined }
}

const here = (): System => ({ platform: process.platform, home: homedir(), env: process.env })

/** XDG Base Directory Specification 0.8; Application Support on macOS; roaming application data on Windows. */
export function dataFolder({ platform, home, env }: System = here()): string {
  if (platform === 'win32') return win32.join(env.APPDATA || win32.join(home, 'AppData', 'Roaming'), 'finwright')
  if (platform === 'darwin') return posix.join(home, 'Library', 'Application Support', 'finwright')
  const data = env.XDG_DATA_HOME
  return posix.join(
    data !== undefined && posix.isAbsolute(data) ? data : posix.join(home, '.local', 'share'),
    'finwright',
  )
}
