// Light laid on triangles once, whenever the sun moves: what is drawn in a frame is then one color to a corner.

/** Toward the sun, a unit vector: east, north, up. */
export type Toward = readonly [x: number, y: number, z: number];

/** Where nobody said where the site lies: from the south-west, half way up. */
export const PLAIN_LIGHT: Toward = [-0.5, -0.62, 0.605];

/** What reaches a face without any sun, and what the sky adds to one that looks up. */
const SHADE = 0.5;
const SKY = 0.16;
const SUN = 0.46;

/** The normals of triangles, three figures to a triangle; none of a triangle without area. */
export function normalsOf(corners: Float32Array): Float32Array {
  const normals = new Float32Array(corners.length / 3);
  for (let i = 0, k = 0; i < corners.length; i += 9, k += 3) {
    const at = (n: number): number => corners[i + n] ?? 0;
    const [ux, uy, uz] = [at(3) - at(0), at(4) - at(1), at(5) - at(2)];
    const [vx, vy, vz] = [at(6) - at(0), at(7) - at(1), at(8) - at(2)];
    const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const long = Math.hypot(x, y, z) || 1;
    normals[k] = x / long;
    normals[k + 1] = y / long;
    normals[k + 2] = z / long;
  }
  return normals;
}

/** How bright a face is, 0 to 1 and a little over. */
export function brightness(x: number, y: number, z: number, sun: Toward): number {
  const lit = Math.max(0, x * sun[0] + y * sun[1] + z * sun[2]);
  // A low sun is a weak one.
  const strength = Math.min(1, Math.max(0, sun[2]) * 3 + 0.15);
  return SHADE + SKY * (0.5 + 0.5 * z) + SUN * lit * strength;
}

/** Lays light on colors: three bytes to a corner, nine to a triangle. `tints` has three figures to a triangle. */
export function lay(colors: Uint8Array, tints: Float32Array, normals: Float32Array, sun: Toward): void {
  for (let t = 0, i = 0; t < tints.length; t += 3) {
    const bright = 255 * brightness(normals[t] ?? 0, normals[t + 1] ?? 0, normals[t + 2] ?? 0, sun);
    const red = Math.min(255, (tints[t] ?? 0) * bright);
    const green = Math.min(255, (tints[t + 1] ?? 0) * bright);
    const blue = Math.min(255, (tints[t + 2] ?? 0) * bright);
    for (let corner = 0; corner < 3; corner += 1, i += 3) {
      colors[i] = red;
      colors[i + 1] = green;
      colors[i + 2] = blue;
    }
  }
}
