/** A value that views can watch. */
export interface Store<T> {
  readonly get: () => T
  readonly watch: (told: () => void) => () => void
}

export interface Cell<T> extends Store<T> {
  readonly set: (value: T) => void
}

export function cell<T>(first: T): Cell<T> {
  let value = first
  const watchers = new Set<() => void>()
  return {
    get: () => value,
    set: (next) => {
      if (Object.is(next, value)) return
      value = next
      for (const told of watchers) told()
    },
    watch: (told) => {
      watchers.add(told)
      return () => watchers.delete(told)
    },
  }
}
