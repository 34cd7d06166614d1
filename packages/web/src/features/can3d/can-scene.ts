/** The can in three dimensions: tube, fins, fillets, plies as steps of one ink, and a mode of the fin that moves. */
import type { SectionFigures, StructureSection } from '@finwright/core/assess/assessment.ts'
import type { Point } from '@finwright/core/geometry/point.ts'
import {
  AmbientLight,
  BufferAttribute,
  BufferGeometry,
  Color,
  CylinderGeometry,
  DirectionalLight,
  DoubleSide,
  Group,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Raycaster,
  Scene,
  Vector2,
  WebGLRenderer,
} from 'three'
import { OrbitControls } from 'three/addons/controls/OrbitControls.js'
import { folded, onFin, rowsOf, type Space, strip } from './fold.ts'

export interface CanModel {
  readonly section: SectionFigures
  /** Of one fin, m: x aft, y out. */
  readonly fin: readonly Point[]
  /** From the core outward. */
  readonly plies: readonly { readonly id: string; readonly outline: readonly Point[] }[]
  readonly shapes: StructureSection['shapes']
}

/** What is shown of it. */
export interface CanView {
  /** Plies that are laid: the first so many. */
  readonly laid: number
  readonly hand: string | null
  /** Which mode moves; null for none. */
  readonly mode: number | null
  readonly moving: boolean
}

export interface CanScene {
  /** Another can in place of this one, seen from the same place: after an edit. */
  readonly put: (model: CanModel) => void
  readonly show: (view: CanView) => void
  readonly recolour: () => void
  readonly turn: (about: number, over: number) => void
  readonly size: (width: number, height: number) => void
  readonly end: () => void
}

/** Drawn thicker than they are, so that steps can be seen; m. */
const drawnPly = 0.6e-3
/** Clear of the tube that it touches; m. */
const filletLift = 1e-4
/** Of the span, at the most moved point. */
const swing = 0.12
/** Hz, on screen. */
const pace = 0.7

/** Null where the browser has no WebGL. */
export function canScene(
  canvas: HTMLCanvasElement,
  first: CanModel,
  told: (ply: string | null) => void,
): CanScene | null {
  const renderer = rendererOn(canvas)
  if (renderer === null) return null
  const reach = reachOf(first)
  const scene = new Scene()
  const can = new Group()
  scene.add(can, new AmbientLight('#fff', 1.6))
  const sun = new DirectionalLight('#fff', 2)
  const camera = new PerspectiveCamera(32, 1, reach / 50, reach * 40)
  camera.position.set(-2.6 * reach, 2.6 * reach, 3.4 * reach)
  camera.add(sun)
  scene.add(camera)
  const controls = new OrbitControls(camera, canvas)
  controls.enablePan = false

  let bodies = bodiesOf(first)
  let view: CanView = { laid: bodies.plies.length, hand: null, mode: null, moving: false }
  let frame = 0
  let queued = 0
  /** Once a frame, however much has changed. */
  const draw = (): void => {
    if (queued === 0) queued = requestAnimationFrame(render)
  }
  function render(): void {
    queued = 0
    renderer!.render(scene, camera)
    for (const old of left.splice(0)) dispose(old)
  }
  /** Shown no more. They go once the next picture stands: what both are drawn with is not made anew. */
  const left: Bodies[] = []

  function place(): void {
    const { model, all } = bodies
    controls.minDistance = 1.2 * reachOf(model)
    controls.maxDistance = 12 * reachOf(model)
    can.position.x = -model.section.rootLength_m / 2
    can.add(...all)
  }
  place()
  function recolour(): void {
    const { tube, fins, fillets, plies, moved } = bodies
    const { paper, ink, saffron, mid } = inksOf(canvas)
    colour(tube, mix(paper, mid, 0.25))
    colour(fins, mix(paper, mid, 0.1))
    colour(fillets, mix(paper, mid, 0.55))
    if (moved !== null) colour(moved, mix(paper, ink, 0.35))
    plies.forEach((ply, i) => {
      const held = ply.userData.ply === view.hand
      colour(ply, held ? saffron : ink)
      ply.material.opacity = held ? 0.9 : 0.16
      ply.renderOrder = held ? plies.length + 1 : i + 1
    })
    draw()
  }

  function tick(time: number): void {
    const { moved, model } = bodies
    if (moved !== null && view.mode !== null)
      deflect(moved.geometry, model, view.mode, view.moving ? Math.sin(2e-3 * Math.PI * pace * time) : 1)
    draw()
    frame = view.moving && view.mode !== null ? requestAnimationFrame(tick) : 0
  }

  const caster = new Raycaster()
  const onPointerMove = (event: PointerEvent): void => {
    const box = canvas.getBoundingClientRect()
    const at = new Vector2(
      (2 * (event.clientX - box.left)) / box.width - 1,
      1 - (2 * (event.clientY - box.top)) / box.height,
    )
    caster.setFromCamera(at, camera)
    const { tube, fins, fillets, plies } = bodies
    const hits = caster.intersectObjects([tube, fins, fillets, ...plies].filter(({ visible }) => visible))
    const near = hits.filter(({ distance }) => distance - hits[0]!.distance < 4 * (plies.length + 1) * drawnPly)
    const touched = plies.find((ply) => near.some(({ object }) => object === ply))
    told(view.mode === null ? ((touched?.userData.ply as string | undefined) ?? null) : null)
  }
  const onPointerLeave = (): void => told(null)
  canvas.addEventListener('pointermove', onPointerMove)
  canvas.addEventListener('pointerleave', onPointerLeave)
  controls.addEventListener('change', draw)

  function show(): void {
    const { fins, plies, moved } = bodies
    plies.forEach((ply, i) => {
      ply.visible = i < view.laid && view.mode === null
    })
    fins.visible = view.mode === null
    if (moved !== null) moved.visible = view.mode !== null
    recolour()
    cancelAnimationFrame(frame)
    tick(performance.now())
  }

  return {
    put: (model) => {
      const before = bodies
      can.remove(...before.all)
      bodies = bodiesOf(model)
      place()
      left.push(before)
      show()
    },
    show: (next) => {
      view = next
      show()
    },
    recolour,
    turn: (about, over) => {
      const { x, y, z } = camera.position
      const distance = Math.hypot(x, y, z)
      const up = Math.min(Math.max(Math.asin(y / distance) + over, -1.5), 1.5)
      const round = Math.atan2(z, x) + about
      camera.position.set(
        distance * Math.cos(up) * Math.cos(round),
        distance * Math.sin(up),
        distance * Math.cos(up) * Math.sin(round),
      )
      controls.update()
      draw()
    },
    size: (width, height) => {
      renderer.setPixelRatio(Math.min(devicePixelRatio, 2))
      renderer.setSize(width, height, false)
      camera.aspect = width / height
      camera.updateProjectionMatrix()
      draw()
    },
    end: () => {
      cancelAnimationFrame(frame)
      cancelAnimationFrame(queued)
      canvas.removeEventListener('pointermove', onPointerMove)
      canvas.removeEventListener('pointerleave', onPointerLeave)
      controls.dispose()
      for (const one of [...left, bodies]) dispose(one)
      renderer.dispose()
    },
  }
}

function rendererOn(canvas: HTMLCanvasElement): WebGLRenderer | null {
  const context = canvas.getContext('webgl2', { antialias: true, alpha: true })
  return context === null ? null : new WebGLRenderer({ canvas, context, antialias: true, alpha: true })
}

type Lit = Mesh<BufferGeometry, MeshLambertMaterial>

const reachOf = ({ section }: CanModel): number =>
  Math.max(section.tubeRadius_m + section.span_m, section.rootLength_m / 2)

interface Bodies {
  readonly model: CanModel
  readonly tube: Lit
  readonly fins: Lit
  readonly fillets: Lit
  readonly plies: readonly Lit[]
  readonly moved: Lit | null
  readonly all: readonly Lit[]
}

function bodiesOf(model: CanModel): Bodies {
  const { section } = model
  const tube = mesh(
    new CylinderGeometry(section.tubeRadius_m, section.tubeRadius_m, 2 * section.rootLength_m, 96, 1, true),
  )
  tube.geometry.rotateZ(Math.PI / 2)
  tube.position.x = section.rootLength_m / 2
  const fins = mesh(surface(finPositions(model)))
  const fillets = mesh(surface(filletPositions(model)))
  const plies = model.plies.map(({ id, outline }, i) => {
    const rows = rowsOf(outline, section)
    const positions = bays(section).flatMap((bay) =>
      strip(rows, (X, Y) => folded([X, Y], bay, (i + 1) * drawnPly, section)),
    )
    const one = mesh(surface(positions))
    one.userData.ply = id
    // Glassy, the inner ones first, so that steps show through as on the bay map.
    one.material.transparent = true
    one.material.depthWrite = false
    one.renderOrder = i + 1
    return one
  })
  const moved = model.shapes === null ? null : mesh(movedGeometry(model))
  const all = [tube, fins, fillets, ...plies, ...(moved === null ? [] : [moved])]
  return { model, tube, fins, fillets, plies, moved, all }
}

function dispose({ all }: Bodies): void {
  for (const one of all) {
    one.geometry.dispose()
    one.material.dispose()
  }
}

const mesh = (geometry: BufferGeometry): Lit =>
  new Mesh(geometry, new MeshLambertMaterial({ side: DoubleSide, flatShading: false }))

const colour = (one: Lit, value: Color): void => void one.material.color.copy(value)

function surface(positions: readonly number[]): BufferGeometry {
  const geometry = new BufferGeometry()
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(positions), 3))
  geometry.computeVertexNormals()
  return geometry
}

const bays = ({ finCount }: SectionFigures): readonly number[] => Array.from({ length: finCount }, (_, i) => i)

/** Both faces and the edge all round; an outline is a simple polygon that every cut along the axis meets in one piece. */
function finPositions({ section, fin }: CanModel): number[] {
  const t = section.coreThickness_m
  const rows = rowsOf(fin, section)
  return bays(section).flatMap((k) => [
    ...[t / 2, -t / 2].flatMap((v) => strip(rows, (x, y) => onFin([x, y], k, v, section))),
    ...fin.flatMap((a, i) => {
      const b = fin[(i + 1) % fin.length]!
      const [p, q, r, s] = [
        onFin(a, k, t / 2, section),
        onFin(b, k, t / 2, section),
        onFin(b, k, -t / 2, section),
        onFin(a, k, -t / 2, section),
      ]
      return [...p, ...q, ...r, ...p, ...r, ...s]
    }),
  ])
}

function filletPositions({ section }: CanModel): number[] {
  const { filletFoot, filletTop } = section.stations_m
  const L = section.rootLength_m
  return bays(section).flatMap((bay) =>
    [1, -1].flatMap((side) => {
      const outline: Point[] = [
        [0, side * filletFoot],
        [L, side * filletFoot],
        [L, side * filletTop],
        [0, side * filletTop],
      ]
      return strip(rowsOf(outline, section), (X, Y) => folded([X, Y], bay, filletLift, section))
    }),
  )
}

function movedGeometry({ section, shapes }: CanModel): BufferGeometry {
  const { nodes_m, triangles } = shapes!
  const geometry = new BufferGeometry()
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(3 * nodes_m.length * section.finCount), 3))
  geometry.setIndex(
    bays(section).flatMap((k) => triangles.flatMap((corners) => corners.map((i) => i + k * nodes_m.length))),
  )
  return geometry
}

/** All fins alike: how they move against one another is not computed. */
function deflect(geometry: BufferGeometry, { section, shapes }: CanModel, mode: number, phase: number): void {
  const position = geometry.getAttribute('position') as BufferAttribute
  const { nodes_m, deflection } = shapes!
  const amplitude = swing * section.span_m * phase
  for (const k of bays(section))
    nodes_m.forEach((node, i) => {
      const at: Space = onFin(node, k, amplitude * (deflection[mode]?.[i] ?? 0), section)
      position.setXYZ(k * nodes_m.length + i, ...at)
    })
  position.needsUpdate = true
  geometry.computeVertexNormals()
  geometry.computeBoundingSphere()
}

function inksOf(element: Element) {
  const style = getComputedStyle(element)
  const of = (name: string): Color => new Color(style.getPropertyValue(name).trim())
  return { paper: of('--paper'), ink: of('--ink'), mid: of('--ink-mid'), saffron: of('--saffron') }
}

const mix = (a: Color, b: Color, share: number): Color => a.clone().lerp(b, share)
