// The scene as the press sends it.
import type { SpaceRecord } from '../paper/messages.ts';

export interface SpaceModel {
  record: SpaceRecord;
  /** Of each body, nine figures to a triangle. */
  corners: Float32Array[];
  /** Of each line, three figures to a point. */
  points: Float32Array[];
}
