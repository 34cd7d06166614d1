/** Will it hold? Flutter along the flight, how the fin rings, which ply fails first, what the root bears, and what moves all that. */

import { Contents } from '../../parts/Contents.tsx'
import { Page, type Shown } from '../../parts/Page.tsx'
import { Drivers } from './Drivers.tsx'
import { Flutter } from './Flutter.tsx'
import { Joint } from './Joint.tsx'
import { Modes } from './Modes.tsx'
import { Strength } from './Strength.tsx'

const contents = [
  { id: 'flutter', title: 'Flutter' },
  { id: 'moves', title: 'What moves it' },
  { id: 'modes', title: 'How it rings' },
  { id: 'strength', title: 'Strength' },
  { id: 'joint', title: 'Root joint' },
]

export default function HoldPage() {
  return (
    <Page question="Will it hold?" needs={['flight', 'fin', 'structure', 'flutter', 'strength', 'bond']}>
      {(shown: Shown) => (
        <>
          <Contents sections={contents} />
          <Flutter {...shown} />
          <Drivers {...shown} />
          <Modes {...shown} />
          <Strength {...shown} />
          <Joint {...shown} />
        </>
      )}
    </Page>
  )
}
