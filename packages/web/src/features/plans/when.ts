/** A time as this machine writes it. */
export const when = (time: string): string =>
  new Date(time).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' })
