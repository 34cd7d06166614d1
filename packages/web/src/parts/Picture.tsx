/** A drawing of the sheets on screen: the same primitives, as wide as there is room, in the inks of the theme. */
import type { Primitive } from '@finwright/sheets/drawing/drawing.ts'
import { type Colours, itemsAsSvg } from '@finwright/sheets/drawing/svg.ts'
import { type ReactNode, useId, useMemo } from 'react'
import styles from './Picture.module.css'
import { useWidth } from './use-width.ts'

export interface Drawn {
  /** mm. */
  readonly height: number
  readonly items: readonly Primitive[]
}

interface PictureProps {
  /** What a reader who does not see it is told. */
  readonly label: string
  /** In a room this wide, mm; null where there is nothing to draw. Keep it with `useCallback`: a new one draws anew. */
  readonly draw: (width: number) => Drawn | null
  readonly stale?: boolean
  readonly caption?: ReactNode
  /** Drawn over it, in the same millimetres. */
  readonly over?: (width: number, drawn: Drawn) => ReactNode
}

const inks: Colours = {
  ink: 'var(--ink)',
  dark: 'var(--ink-dark)',
  mid: 'var(--ink-mid)',
  light: 'var(--ink-light)',
  pale: 'var(--ink-pale)',
  saffron: 'var(--saffron)',
  danger: 'var(--danger)',
  paper: 'var(--paper)',
}

export function Picture({ label, draw, stale = false, caption, over }: PictureProps) {
  const [element, width] = useWidth<HTMLDivElement>()
  const drawn = useMemo(() => (width < 10 ? null : draw(width)), [draw, width])
  return (
    <figure className={styles.figure} data-stale={stale || undefined}>
      <div ref={element}>
        {drawn !== null && (
          <Svg label={label} width={width} drawn={drawn}>
            {over?.(width, drawn)}
          </Svg>
        )}
      </div>
      {caption !== undefined && <figcaption className={styles.caption}>{caption}</figcaption>}
    </figure>
  )
}

interface SvgProps {
  readonly label: string
  readonly width: number
  readonly drawn: Drawn
  readonly children?: ReactNode
}

/** Every letter in it was escaped by the drawing's own writer. */
export function Svg({ label, width, drawn, children }: SvgProps) {
  const title = useId()
  const inside = useMemo(() => ({ __html: itemsAsSvg(drawn.items, inks) }), [drawn])
  return (
    <svg
      className={styles.drawing}
      viewBox={`0 0 ${width} ${drawn.height}`}
      role="img"
      aria-labelledby={title}
      preserveAspectRatio="xMidYMin meet"
    >
      <title id={title}>{label}</title>
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: written by our own escaping writer */}
      <g dangerouslySetInnerHTML={inside} />
      {children}
    </svg>
  )
}
