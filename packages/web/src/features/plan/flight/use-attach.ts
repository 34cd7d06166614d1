/** Puts a file beside the plan and names it there, as one step of undo. */
import type { Issue } from '@finwright/core/issue.ts'
import type { Intent } from '@finwright/plan/protocol/commands.ts'
import type { FileReference } from '@finwright/plan/protocol/record.ts'
import { freshName } from '../../../state/names.ts'
import { useEnter, useSession } from '../../../state/use.ts'

export type Attach = (
  text: string,
  intents: (reference: FileReference) => readonly Intent[],
) => Promise<readonly Issue[]>

export function useAttach(): Attach {
  const { keepFile } = useSession()
  const enter = useEnter()
  return async (text, intents) => {
    const reply = await keepFile(text)
    if (reply.kind === 'gone') return [serverGone]
    if (reply.kind === 'refused') return reply.issues
    const gesture = freshName()
    for (const intent of intents(reply.value)) {
      const made = enter(intent, gesture)
      if (!made.ok) return made.issues
    }
    return []
  }
}

const serverGone: Issue = {
  code: 'server/gone',
  path: '',
  value: null,
  message: 'The server does not answer, so the file cannot be kept.',
  hint: 'Start it with npm start and take the file again: it is still here.',
}
