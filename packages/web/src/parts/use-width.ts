/** Width of an element in mm as drawings count it, so that lettering is as large on a phone as on a desk. */
import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

/** Screen pixels to a millimetre of drawing: 2.5 mm lettering is 12 px high. */
export const pixelsPerMm = 4.8

/** Widths are taken in steps, so that a drawing is not made anew for every pixel of a window's edge. */
const step = 2

export function useWidth<E extends HTMLElement>(): readonly [RefObject<E | null>, number] {
  const element = useRef<E>(null)
  const [width, setWidth] = useState(0)
  useLayoutEffect(() => {
    const measured = element.current
    if (measured === null) return
    const measure = (): void => setWidth(Math.floor(measured.clientWidth / pixelsPerMm / step) * step)
    measure()
    const observer = new ResizeObserver(measure)
    observer.observe(measured)
    return () => observer.disconnect()
  }, [])
  return [element, width]
}
