/** The can to turn by hand or arrow keys; at rest as lines where the browser has no WebGL. */
import { type KeyboardEvent, useEffect, useMemo, useRef, useState } from 'react'
import { useWidth } from '../../parts/use-width.ts'
import { theme } from '../../state/theme.ts'
import styles from './CanPage.module.css'
import type { CanScene, CanView } from './can-scene.ts'
import type { CanModel } from './model.ts'
import { stillCan } from './still.ts'

interface CanPictureProps {
  readonly model: CanModel
  readonly view: CanView
  readonly onHand: (ply: string | null) => void
}

export function CanPicture({ model, view, onHand }: CanPictureProps) {
  const [frame] = useWidth<HTMLDivElement>()
  const { scene, flat, canvas } = useScene(model, onHand)
  useEffect(() => {
    const box = canvas.current
    if (scene === null || box === null) return
    const fit = (): void => scene.size(Math.max(box.clientWidth, 1), Math.max(box.clientHeight, 1))
    fit()
    const watcher = new ResizeObserver(fit)
    watcher.observe(box)
    const stop = theme.watch(scene.recolour)
    return () => {
      watcher.disconnect()
      stop()
    }
  }, [scene, canvas])
  const { laid, hand, swing, moving } = view
  useEffect(() => scene?.show({ laid, hand, swing, moving }), [scene, laid, hand, swing, moving])

  const onKeyDown = (event: KeyboardEvent): void => {
    const turns: { readonly [key: string]: readonly [number, number] } = {
      ArrowLeft: [0.15, 0],
      ArrowRight: [-0.15, 0],
      ArrowUp: [0, 0.15],
      ArrowDown: [0, -0.15],
    }
    const by = turns[event.key]
    if (by === undefined || scene === null) return
    event.preventDefault()
    scene.turn(...by)
  }
  return (
    <div ref={frame} className={styles.picture}>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys turn it */}
      <section aria-label="The can; arrow keys turn it" tabIndex={0} onKeyDown={onKeyDown} className={styles.turned}>
        <canvas ref={canvas} className={styles.canvas} hidden={scene === null} />
        {flat && <Still model={model} view={view} onHand={onHand} />}
      </section>
      <p className={styles.note}>
        {flat
          ? 'Drawn at rest: this browser shows nothing in three dimensions.'
          : scene === null
            ? 'Being drawn …'
            : 'Drag or arrow keys to turn, wheel to come closer.'}
      </p>
    </div>
  )
}

function useScene(model: CanModel, onHand: (ply: string | null) => void) {
  const canvas = useRef<HTMLCanvasElement>(null)
  const told = useRef(onHand)
  told.current = onHand
  const newest = useRef(model)
  newest.current = model
  const [scene, setScene] = useState<CanScene | null>(null)
  /** The browser has no WebGL. */
  const [flat, setFlat] = useState(false)
  useEffect(() => {
    let wanted = true
    let made: CanScene | null = null
    let endMaking = (): void => undefined
    void import('./can-scene.ts').then(({ canScene, bodiesSlowly }) => {
      if (!wanted) return
      endMaking = bodiesSlowly(newest.current, (bodies) => {
        if (canvas.current === null) return
        made = canScene(canvas.current, bodies, (ply) => told.current(ply))
        if (made === null) setFlat(true)
        else setScene(made)
      })
    })
    return () => {
      wanted = false
      endMaking()
      made?.end()
    }
  }, [])
  useEffect(() => scene?.put(model), [scene, model])
  return { scene, flat, canvas }
}

function Still({ model, view, onHand }: CanPictureProps) {
  const { paths, box } = useMemo(() => stillCan(model), [model])
  return (
    <svg viewBox={box.join(' ')} role="img" aria-label="The can at rest" className={styles.still}>
      {paths
        .filter(({ kind, order }) => kind !== 'ply' || order < view.laid)
        .map(({ kind, id, d }, i) => (
          <path
            // biome-ignore lint/suspicious/noArrayIndexKey: a ply lies on several bays
            key={`${kind} ${id} ${i}`}
            className={styles[kind]}
            data-hand={(kind === 'ply' && id === view.hand) || undefined}
            d={d}
            onPointerEnter={() => onHand(kind === 'ply' ? id : null)}
          />
        ))}
    </svg>
  )
}
