// What crosses between page and core. Every type here comes out of the Rust types with the build (see `tsify`); this file
// only says which members of a record the core always writes although a file may leave them out.
import type * as core from '../wasm/batterboard_web.js';

export type * from '../wasm/batterboard_web.js';

/** A record as the core writes it: everything is there but what may be missing. */
type Written<T, Missing extends keyof T = never> = Required<Omit<T, Missing>> & Pick<T, Missing>;

/** `[x, y]`, or `[x, y, bulge]` where an arc follows. */
export type Vertex = core.VertexRecord;

/** How a map or a list is meant. */
export type MapSettings = Written<core.MapSettings>;
export type MapReading = Omit<core.MapReading, 'settings'> & { settings: MapSettings | null };

/** What the bearings of a lot count from. */
export type Basis = Written<core.Basis, 'words' | 'true_north'>;
export type Monument = Written<core.Monument, 'note'>;
export type LotRecord = Omit<core.LotRecord, 'basis' | 'courses'> & { basis?: Basis; courses?: Course[] };
export type Course = Omit<core.Course, 'monument'> & { monument?: Monument };
export type DeedReading = Omit<core.DeedReading, 'courses'> & { courses: Course[] };
export type Picture = Written<core.Picture, 'name' | 'hidden' | 'locked'>;
export type Rule = Written<core.Rule, 'only' | 'slant'>;
export type ShareRule = Written<core.ShareRule>;
export type BarrierRule = Written<core.BarrierRule>;
export type Book = Written<core.Book, 'changed'>;

export type DigSettings = Written<
  core.DigSettings,
  'side_slope' | 'swell' | 'density' | 'sides' | 'bases' | 'layers' | 'upright_below' | 'bench' | 'short_term'
>;
export type DewateringSettings = Written<core.DewateringSettings, 'at'>;
export type PipeSettings = Written<core.PipeSettings, 'fittings'>;
export type SpoilSettings = Written<core.SpoilSettings, 'at'>;

/** The settings of the work: meters, seconds, kilograms. */
export interface ConstructionSettings {
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
  access: Written<core.AccessSettings>;
  crane: Written<core.CraneSettings, 'shell_weight'>;
}

/** The site document, named as in a site file. */
export type Site = Omit<
  Written<core.Site, 'note' | 'benchmark' | 'origin' | 'grid' | 'picture' | 'contours' | 'placement' | 'equipment' | 'rates' | 'currency' | 'section' | 'alternatives' | 'tapes' | 'lift' | 'photographs' | 'shares' | 'barrier'>,
  'works' | 'lot' | 'picture' | 'rules' | 'shares' | 'barrier'
> & { shares?: ShareRule[]; barrier?: BarrierRule; works: ConstructionSettings; lot: LotRecord; picture?: Picture; rules: Rule[] };

/** The planner as the page sees it: what it tells is complete (see above). */
export type Planner = Omit<core.Planner, keyof Told> & Told;

interface Told {
  settings(): Site;
  read_deed(text: string, rest_of_lot: LotRecord): DeedReading;
  read_map(text: string, settings?: MapSettings | null): MapReading;
  example_rules(): Rule[];
}
