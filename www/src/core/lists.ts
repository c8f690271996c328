// The words of the core's enumerations in the order forms show them; a word that is missing here does not compile.
import type {
  Cover,
  FacetKind,
  FeatureKind,
  FeaturePart,
  FittingKind,
  HoleSide,
  KnownFrom,
  LineClass,
  LineKind,
  MeasuredFrom,
  MonumentKind,
  MonumentState,
  North,
  PipeSize,
  Utility,
} from './types.ts';

/** The list itself, where it holds every word of `T`. */
const every =
  <T extends string>() =>
  <const L extends readonly T[]>(...list: [T] extends [L[number]] ? L : never): L =>
    list;

export const LINE_KINDS = every<LineKind>()('front', 'side', 'rear', 'street-side', 'shared', 'unspecified');
export const MONUMENT_KINDS = every<MonumentKind>()(
  'iron-rod',
  'iron-pipe',
  'concrete',
  'stone',
  'nail',
  'cut',
  'post',
  'other',
);
export const MONUMENT_STATES = every<MonumentState>()('not-searched', 'found', 'set', 'not-found');
export const NORTHS = every<North>()('unspecified', 'true', 'grid', 'magnetic', 'assumed', 'record');
export const FEATURE_KINDS = every<FeatureKind>()(
  'house',
  'outbuilding',
  'wall',
  'fence',
  'driveway',
  'walk',
  'tree',
  'easement',
  'septic-tank',
  'septic-field',
  'well',
  'buried-line',
  'overhead-line',
  'equipment',
  'watercourse',
  'street-edge',
  'deck',
  'deck-opening',
  'deck-steps',
  'pipe-trench',
  'spoil-space',
  'other',
);
export const UTILITIES = every<Utility>()('electric', 'gas', 'communication', 'water', 'reclaimed', 'sewer');
export const LINE_CLASSES = every<LineClass>()('communication', 'service', 'to-15-kv', 'over-15-kv');
export const KNOWN_FROM = every<KnownFrom>()('marked', 'drawing', 'memory');
export const FACET_KINDS = every<FacetKind>()('ledge', 'step', 'bench', 'shallow', 'slope', 'deep');
export const MEASURED_FROM = every<MeasuredFrom>()('waters-edge', 'rim', 'deck-edge', 'equipment', 'dig', 'steps', 'spoil-pile', 'barrier');
export const FEATURE_PARTS = every<FeaturePart>()('tree-trunk', 'tree-protection', 'door', 'gate', 'window');
export const COVERS = every<Cover>()('structures', 'paving', 'shell', 'deck', 'pad');
export const HOLE_SIDES = every<HoleSide>()('ahead', 'left', 'behind', 'right');
export const FITTING_KINDS = every<FittingKind>()('return', 'skimmer', 'drain');
export const PIPE_SIZES = every<PipeSize>()('one-and-half', 'two', 'two-and-half', 'three');
