/**
 * What every request must satisfy before anything else looks at it. The server listens on loopback only; these keep out pages
 * of other sites that a browser on this machine may have open.
 *
 * - The Host header names this server: a name of an attacker that resolves to 127.0.0.1 is refused (DNS rebinding).
 * - A request that changes anything carries the Origin of this server; browsers state it and pages cannot forge it. One
 *   without Origin is refused too.
 * - A browser's own word on where a request comes from (Sec-Fetch-Site) is believed when it says another site: that may open
 *   the app by a link, and read nothing.
 * - No CORS headers are ever sent.
 */
import { Refusal } from './refusal.ts'

/** The headers that are looked at. */
export const guarded = ['host', 'origin', 'sec-fetch-site', 'sec-fetch-mode'] as const

export interface Asked {
  readonly method: string
  readonly path: string
  readonly headers: { readonly [name in (typeof guarded)[number]]?: string | undefined }
}

/** Both names of the loopback address, with the port when it is not that of http. */
export const ownHosts = (port: number): readonly string[] =>
  ['127.0.0.1', 'localhost'].flatMap((name) => (port === 80 ? [name, `${name}:80`] : [`${name}:${port}`]))

const reading = new Set(['GET', 'HEAD'])

export function guard({ method, path, headers }: Asked, port: number): void {
  const hosts = ownHosts(port)
  const { host = '', origin } = headers
  if (!hosts.includes(host.toLowerCase())) throw refused(421, 'server/host', 'Host', host, hosts)
  const site = headers['sec-fetch-site']
  const byLink = method === 'GET' && headers['sec-fetch-mode'] === 'navigate' && !isApi(path)
  if (site !== undefined && site !== 'same-origin' && site !== 'none' && !byLink) {
    throw refused(403, 'server/other-site', 'Sec-Fetch-Site', site, ['same-origin', 'none'])
  }
  if (reading.has(method)) return
  const origins = hosts.map((name) => `http://${name}`)
  if (origin !== `http://${host.toLowerCase()}`) throw refused(403, 'server/origin', 'Origin', origin ?? '', origins)
}

export const isApi = (path: string): boolean => path === '/api' || path.startsWith('/api/')

const refused = (status: number, code: string, header: string, value: string, allowed: readonly string[]): Refusal =>
  new Refusal(status, [
    {
      code,
      path: header,
      value: value.slice(0, 80),
      message: `The header ${header} is '${value.slice(0, 80)}'; it must be ${allowed.join(' or ')}.`,
      hint: 'Open Finwright by the address that it prints when it starts. Scripts must send Host and Origin of that address.',
    },
  ])

/**
 * Scripts, styles, workers and fonts from this server alone; nothing in frames; no plug-ins. Styles in attributes are set by
 * script, which the policy allows.
 */
const policy = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ')

export const securityHeaders: { readonly [name: string]: string } = {
  'content-security-policy': policy,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'x-frame-options': 'DENY',
}
