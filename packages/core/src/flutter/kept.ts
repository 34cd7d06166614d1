/** Results kept for the next call: of the latest Mach numbers, and of each mesh as long as the mesh itself lives. */
import type { FieldMesh } from '../air/subsonic/mesh-sampling.ts'

/** A flight's Mach numbers, and those of the flight before it. */
const mostMachNumbers = 32

export function keptByMach<T>(make: (mach: number) => T): (mach: number) => T {
  const kept = new Map<number, T>()
  return (mach) => {
    const made = kept.get(mach) ?? make(mach)
    // Deleted and set again, a Mach number is the latest; the first key is the one that waited longest.
    kept.delete(mach)
    kept.set(mach, made)
    const [oldest] = kept.keys()
    if (kept.size > mostMachNumbers) kept.delete(oldest)
    return made
  }
}

/** Told apart by identity of the nodes' array, which must not change. */
export function keptByMesh<T>(make: (mesh: FieldMesh) => T): (mesh: FieldMesh) => T {
  const kept = new WeakMap<Float64Array, { readonly mesh: FieldMesh; readonly made: T }>()
  return (mesh) => {
    const found = kept.get(mesh.X)
    if (found !== undefined && found.mesh.T === mesh.T) return found.made
    const made = make(mesh)
    kept.set(mesh.X, { mesh, made })
    return made
  }
}
