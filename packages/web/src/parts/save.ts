/** Hands a file to the browser. */
export function save(name: string, content: Uint8Array | string, type: string): void {
  const address = URL.createObjectURL(new Blob([content as Uint8Array<ArrayBuffer> | string], { type }))
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 60_000)
}
