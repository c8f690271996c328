// What crosses between page and core. Every type here comes out of the Rust types with the build (see `tsify`); this file
// only says which members of a record the core always writes although a file may leave them out.
import type * as core from '../wasm/batterboard_web.js';

export type * from '../wasm/batterboard_web.js';

/** A record as the core writes it: everything is there but what may be missing. */
type Written<T, Missing extends keyof T = never> = Required<Omit<T, Missing>> & Pick<T, Missing>;

/** Any word of this kind; the name it has in files. */
export type Vertex = core.VertexRecord;
export type Point = core.Point;

export type DigSettings = Written<
  core.DigSettings,
  'side_slope' | 'swell' | 'density' | 'sides' | 'bases' | 'layers' | 'upright_below' | 'bench' | 'short_term'
>;
export type DewateringSettings = Written<core.DewateringSettings, 'at'>;
export type PipeSettings = Written<core.PipeSettings, 'fittings'>;
export type SpoilSettings = Written<core.SpoilSettings, 'at'>;

/** The settings of the work: metres, seconds, kilograms. */
export interface Works {
  dig: DigSettings;
  stone: Written<core.StoneSettings>;
  collar: Written<core.CollarSettings>;
  deck: Written<core.DeckSettings>;
  ties: Written<core.TieSettings>;
  dewatering: DewateringSettings;
  haul: Written<core.HaulSettings>;
  waste: Written<core.WasteSettings>;
  pad: Written<core.PadSettings>;
  pipe: PipeSettings;
  grading: Written<core.GradingSettings>;
  spoil: SpoilSettings;
  groundwater?: number;
  doubt: Written<core.DoubtSettings>;
}

/** The site document, named as in a site file. */
export type Site = Omit<core.Site, 'works' | 'display' | 'features' | 'ground' | 'rules'> &
  Required<Pick<core.Site, 'display' | 'features' | 'ground' | 'rules'>> & { works: Works };
