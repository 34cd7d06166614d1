/** The can in three dimensions: tube, fins, fillets, plies as steps of one ink, and a mode of the fin that moves. */
import { builtBay } from '@finwright/core/pattern/built/built-bay.ts'
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
import { bareCan, faceOf, type Space, turned } from './ground.ts'
import { laid, positionsOf } from './lay.ts'
import type { CanModel } from './model.ts'

/** What is shown of it. */
export interface CanView {
  /** Plies that are laid: the first so many. */
  readonly laid: number
  readonly hand: string | null
  /** How far each node of the mesh swings; null where nothing moves. */
  readonly swing: readonly number[] | null
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

/** Of the span, at the most moved point. */
const farthest = 0.12
/** Hz, on screen. */
const pace = 0.7

/** Null where the browser has no WebGL. `first` as `bodiesSlowly` makes it. */
export function canScene(
  canvas: HTMLCanvasElement,
  first: Bodies,
  told: (ply: string | null) => void,
): CanScene | null {
  const renderer = rendererOn(canvas)
  if (renderer === null) return null
  const reach = reachOf(first.model)
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

  let bodies = first
  let endMaking = (): void => undefined
  let view: CanView = { laid: bodies.plies.length, hand: null, swing: null, moving: false }
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
    const { shape } = model.geometry
    can.position.x = -(shape.x0 + shape.x1) / 2
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
    if (moved !== null && view.swing !== null)
      deflect(moved.geometry, model, view.swing, view.moving ? Math.sin(2e-3 * Math.PI * pace * time) : 1)
    draw()
    frame = view.moving && view.swing !== null ? requestAnimationFrame(tick) : 0
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
    const near = hits.filter(
      ({ distance }) => distance - hits[0]!.distance < 4 * (plies.length + 1) * bodies.model.step,
    )
    const touched = plies.find((ply) => near.some(({ object }) => object === ply))
    told(view.swing === null ? ((touched?.userData.ply as string | undefined) ?? null) : null)
  }
  const onPointerLeave = (): void => told(null)
  canvas.addEventListener('pointermove', onPointerMove)
  canvas.addEventListener('pointerleave', onPointerLeave)
  controls.addEventListener('change', draw)

  function show(): void {
    const { fins, plies, moved } = bodies
    plies.forEach((ply, i) => {
      ply.visible = i < view.laid && view.swing === null
    })
    fins.visible = view.swing === null
    if (moved !== null) moved.visible = view.swing !== null
    recolour()
    cancelAnimationFrame(frame)
    tick(performance.now())
  }

  return {
    put: (model) => {
      endMaking()
      if (model === bodies.model) return
      endMaking = bodiesSlowly(model, (made) => {
        const before = bodies
        can.remove(...before.all)
        bodies = made
        place()
        left.push(before)
        show()
      })
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
      endMaking()
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

const reachOf = ({ span, geometry: { shape } }: CanModel): number => Math.max(shape.R + span, (shape.x1 - shape.x0) / 2)

export interface Bodies {
  readonly model: CanModel
  readonly tube: Lit
  readonly fins: Lit
  readonly fillets: Lit
  readonly plies: readonly Lit[]
  readonly moved: Lit | null
  readonly all: readonly Lit[]
}

/** Longest that the making holds up what else the window has to do, but for one step of it; ms. */
const slice = 8

/** Makes the bodies between other things; the returned function gives up. */
export function bodiesSlowly(model: CanModel, then: (bodies: Bodies) => void): () => void {
  const making = bodiesOf(model)
  let ended = false
  const goOn = (): void => {
    if (ended) return
    const begun = performance.now()
    do {
      const step = making.next()
      if (step.done === true) {
        then(step.value)
        return
      }
    } while (performance.now() - begun < slice)
    setTimeout(goOn)
  }
  goOn()
  return () => {
    ended = true
  }
}

function* bodiesOf(model: CanModel): Generator<void, Bodies, void> {
  const { finCount, outline, reach } = model
  const bare = yield* kept(`bare ${model.key}`, function* () {
    const made = bareCan(model, reach)
    yield
    const faces = [...laid(made.faces, outline.points), ...made.edges]
    yield
    const [fins, fillets] = [faces, made.fillets].map((facets) => everyBay(positionsOf(facets), finCount))
    return { body: made.body, fins: fins!, fillets: fillets! }
  })
  const [start, end] = bare.body as [(typeof bare.body)[number], (typeof bare.body)[number]]
  // The cylinder stands on its aft end: turned, its top is forward.
  const tube = mesh(new CylinderGeometry(start.radius, end.radius, end.x - start.x, 180, 1, true))
  tube.geometry.rotateZ(Math.PI / 2)
  tube.position.x = (start.x + end.x) / 2
  yield
  const [fins, fillets] = [mesh(surface(bare.fins)), mesh(surface(bare.fillets))]
  const plies: Lit[] = []
  for (const [i, { id, key, outline: cloth, facets }] of model.plies.entries()) {
    yield
    const positions = yield* kept(`ply ${finCount} ${key}`, function* () {
      const ground = facets()
      yield
      const cut = laid(ground, cloth)
      yield
      return everyBay(positionsOf(cut), finCount)
    })
    yield
    const one = mesh(surface(positions))
    one.userData.ply = id
    // Glassy, the inner ones first, so that steps show through as on the bay map.
    one.material.transparent = true
    one.material.depthWrite = false
    one.renderOrder = i + 1
    plies.push(one)
  }
  yield
  const moved = model.shapes === null ? null : mesh(movedGeometry(model))
  const whole = [tube, fins, fillets, ...plies, ...(moved === null ? [] : [moved])]
  return { model, tube, fins, fillets, plies, moved, all: whole }
}

/** What an edit did not touch is not made again. */
const known = new Map<string, unknown>()
const mostKnown = 32

function* kept<T>(key: string, make: () => Generator<void, T, void>): Generator<void, T, void> {
  const found = known.has(key) ? (known.get(key) as T) : yield* make()
  known.delete(key) // the latest last, so that the oldest goes first
  known.set(key, found)
  if (known.size > mostKnown) known.delete(known.keys().next().value as string)
  return found
}

/** Those of the first bay, and turned into the others. */
function everyBay(positions: Float32Array, finCount: number): Float32Array {
  const whole = new Float32Array(finCount * positions.length)
  for (let bay = 0; bay < finCount; bay++) {
    const [, cos, sin] = turned([0, 1, 0], bay, finCount) as [number, number, number]
    for (let i = 0, to = bay * positions.length; i < positions.length; i += 3, to += 3) {
      const [y, z] = [positions[i + 1]!, positions[i + 2]!]
      whole[to] = positions[i]!
      whole[to + 1] = y * cos - z * sin
      whole[to + 2] = y * sin + z * cos
    }
  }
  return whole
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

function surface(positions: Float32Array): BufferGeometry {
  const geometry = new BufferGeometry()
  geometry.setAttribute('position', new BufferAttribute(positions, 3))
  geometry.computeVertexNormals()
  return geometry
}

function movedGeometry({ finCount, shapes }: CanModel): BufferGeometry {
  const { nodes_m, triangles } = shapes!
  const geometry = new BufferGeometry()
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(3 * nodes_m.length * finCount), 3))
  geometry.setIndex(
    Array.from({ length: finCount }, (_, k) =>
      triangles.flatMap((corners) => corners.map((i) => i + k * nodes_m.length)),
    ).flat(),
  )
  return geometry
}

/** All fins alike: how they move against one another is not computed. */
function deflect(geometry: BufferGeometry, model: CanModel, swing: readonly number[], phase: number): void {
  const position = geometry.getAttribute('position') as BufferAttribute
  const { finCount, span } = model
  const { nodes_m } = model.shapes!
  const onPlane = (v: number) => builtBay({ ...model.geometry.flatShape, face: () => v }, 0)
  // A fin's mid-plane, and the direction square to it.
  const [middle, off] = [onPlane(0), onPlane(1)]
  const normal = ([x, y, z]: Space, [p, q, r]: Space): Space => [p - x, q - y, r - z]
  const square = normal(faceOf(middle, -1, [0, 0]).at, faceOf(off, -1, [0, 0]).at)
  nodes_m.forEach((node, i) => {
    const [x, y, z] = faceOf(middle, -1, node).at
    const d = farthest * span * phase * (swing[i] ?? 0)
    const at: Space = [x + d * square[0], y + d * square[1], z + d * square[2]]
    for (let k = 0; k < finCount; k++) position.setXYZ(k * nodes_m.length + i, ...turned(at, k, finCount))
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
