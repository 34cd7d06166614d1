/** What the server shows while there is no app to serve: that it runs, and what it can be asked. */
import type { StaticFiles } from './static-files.ts'

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;')

export function plainPage(addresses: readonly string[]): StaticFiles {
  const rows = addresses.map((address) => `<li><code>${escaped(address)}</code></li>`).join('\n')
  const html = `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Finwright</title>
<link rel="stylesheet" href="/plain.css"></head>
<body><main>
<h1>Finwright</h1>
<p>The server runs. The app is not part of this checkout; the command line does the whole job:
<code>npx --no-install finwright --help</code>.</p>
<h2>What it can be asked</h2>
<ul>
${rows}
</ul>
</main></body>
</html>
`
  const css = `body { margin: 0; background: #fbf8f1; color: #1c2733; font: 16px/1.5 sans-serif }
main { max-width: 46rem; margin: 0 auto; padding: 2rem 1rem }
code { font-size: 0.9em }
`
  const headers = (type: string) => ({ 'content-type': `${type}; charset=utf-8`, 'cache-control': 'no-cache' })
  return new Map([
    ['/index.html', { bytes: html, headers: headers('text/html') }],
    ['/plain.css', { bytes: css, headers: headers('text/css') }],
  ])
}
