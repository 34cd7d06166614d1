/** Names for commands, gestures and windows: unique without asking anyone. `randomUUID` is missing on plain HTTP of a LAN. */
export function freshName(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12))
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}
