/** Small things the server remembers between runs. */
import type { Database } from './database.ts'

export interface Settings {
  readonly open: () => string | null
  readonly setOpen: (id: string | null) => void
}

export function settingsIn(database: Database): Settings {
  return {
    open: () => database.one<{ value: string }>("SELECT value FROM settings WHERE name = 'open'")?.value ?? null,
    setOpen: (id) => {
      if (id === null) database.run("DELETE FROM settings WHERE name = 'open'")
      else
        database.run(
          "INSERT INTO settings (name, value) VALUES ('open', ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value",
          id,
        )
    },
  }
}
