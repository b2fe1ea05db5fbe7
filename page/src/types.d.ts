// Shapes of the data that go from module to module. Lengths are in mm, angles in radians, stations along the rope in mm.

export type Vector = [number, number, number];
export type Spot = [number, number];
/** Left, top, right, bottom. */
export type Box = [number, number, number, number];
/** Left, top, width, height. */
export type Rect = [number, number, number, number];
export type Line = [Spot, Spot];
export type Colour = [number, number, number];
export type Numbers = Float32Array | Float64Array;
/** First and last column, or from and to along the rope. */
export type Run = [number, number];
export type GL = WebGL2RenderingContext;

// ---- the page's data, as document.py writes them

export interface Law {
  halfWidth: number;
  halfHeight: number;
  exponent: number;
  spread: number;
  rounding: number;
  spacing: number;
  inset: number;
  beyond: number;
  selfReach: number;
  turn: number;
}

export interface SeatRecord {
  crown: number;
  nose: number;
  reach: number;
  groove: number;
  lip: number;
  halfWidth: number;
  centre: Vector;
}

export interface StateRecord {
  strands: number;
  columns: number;
  count: number[];
  first: number[][];
  quantum: number;
  planes: number;
  station: Run;
  packing: [number, number][];
  thickness: number;
  diameter: number;
  seat: SeatRecord | null;
  rods: number[][];
  text: string;
}

export interface PartRecord {
  part: string;
  faces: number;
  colour: Colour;
  gloss: number;
  flat: boolean;
}

export interface BodiesRecord {
  parts: PartRecord[];
  quantum: number;
  pointPlanes: number;
  facePlanes: number;
  points: string;
  faces: string;
}

export interface ViewRecord {
  axes: [Vector, Vector, Vector];
  low: Vector;
  high: Vector;
  arrow: boolean;
}

export interface TonedRecord {
  host: number;
  half: number;
  shown: [number, number];
  top: number;
  followed: number;
}

export interface InkRecord {
  station: number;
  place: Vector;
  across: Vector;
}

export interface PaintRecord {
  pairs: [Colour, Colour][];
  parts: string[];
  names: string[];
  starts: number[];
  blend: number;
  toned: TonedRecord[];
  fade: number;
  inked: InkRecord[];
  inkHalf: Spot;
  dots: Vector[];
  dotRadius: Spot;
}

export interface MarkRecord {
  letter: string;
  station: number;
  words: string;
}

export interface LabelRecord {
  words: string;
  at: Vector;
}

export interface ChipRecord {
  words: string;
  strand: number;
  opening: number;
  colour: Colour;
}

export interface HoleRecord {
  letter: string;
  station: number;
  half: number;
  at: Vector;
  up: Vector;
  left: Vector;
  high: number;
  top: number;
  strands: number;
}

/** A picture's own part of a step or of one side of a mistake; without `views` it isn't settled yet. */
export interface PictureRecord {
  heading: number;
  views: ViewRecord[];
  marks: MarkRecord[];
  paint: PaintRecord;
  labels: LabelRecord[];
  chips: ChipRecord[];
  holes: HoleRecord[];
  bodies: BodiesRecord | null;
}

export interface StepRecord extends PictureRecord {
  /** Settled states between the step before and this one, and how their tables lie. */
  between: { state: string; heading: number }[];
  name: string;
  state: string;
  caption: string;
  instructions: string[];
  check: string;
  caution: string;
}

export interface WrongRecord extends PictureRecord {
  state: string;
  beside: string;
  step: number;
  title: string;
  signs: string[];
  back: string[];
  off: string;
  right: PictureRecord & { state: string };
}

export interface Option {
  words: string;
  right: boolean;
  why: string;
  shows: string;
}

export interface Question {
  ask: string;
  before: string;
  options: Option[];
}

export interface Figure {
  name: string;
  label: string;
  shown: string;
  measured_from: string;
  note: string;
  formula: string;
  source: string;
}

export interface Tables {
  marks: Figure[];
  lengths: Figure[];
  figures: Figure[];
  words: string[];
  warnings: string[];
  cautions: string[];
}

export interface MeasuringFigure {
  name: string;
  label: string;
  planned: number;
  /** How far off it may be, mm; null: without a bound. */
  least: number | null;
  most: number | null;
  why: string;
}

export interface Measuring {
  asked: { name: string; words: string }[];
  figures: MeasuringFigure[];
}

export interface Palette {
  groups: Colour[];
  dot: Colour[];
  plainFace: Colour;
  ink: Colour;
  line: Colour;
}

/** The rope between two stations, where not all of it is made. */
export type Only = Run | undefined;

export interface PageData {
  page: number;
  name: string;
  method: string;
  title: string;
  summary: string;
  unit: "mm" | "in";
  diameter: number;
  caution: string;
  doubt: string;
  law: Law;
  palette: Palette;
  aim: string;
  home: Partial<PictureRecord> & { only?: Only };
  cutPlace: number;
  steps: StepRecord[];
  wrong: WrongRecord[];
  practice: Question[];
  terminator: BodiesRecord | null;
  tables: Tables;
  measuring: Measuring;
  states: Record<string, StateRecord>;
  /** Kinds of states that are still those of the figures before. */
  old?: string[];
}

// ---- geometry

/** Centre lines of a state: `points` is `(strands, columns, 3)`. */
export interface Strands extends Omit<StateRecord, "station" | "packing"> {
  points: Float64Array;
  /** How far strands lie from the middle of plain rope, mm, where these are a part of a rope. */
  plain?: number;
  station: Float64Array;
  packing: Float64Array;
}

/** Refined centre lines: `centres` is `(strands, n, 3)`. */
export interface Refined {
  strands: number;
  n: number;
  centres: Float64Array;
  station: Float64Array;
  thickness: Float64Array;
  count: Int32Array;
  refine: number;
}

export interface Free {
  cos: Float64Array;
  sin: Float64Array;
  longest: Float64Array;
  widest: number;
}

/** `rings` is `(strands, n, rays, 3)`. */
export interface Sections extends Refined {
  tangents: Float64Array;
  axis: Float64Array;
  rays: number;
  rings: Float32Array;
}

export interface Near {
  found: Float64Array;
  number: number;
}

export interface Cells {
  low: number[];
  cell: number;
  shape: number[];
  starts: Int32Array;
  order: Int32Array;
  segments: Float64Array;
}

export interface Search extends Refined, Cells {
  weight: Float64Array;
  slack: number;
  near: Near;
}

export interface Writer {
  buffer: ArrayBuffer;
  floats: Float32Array;
  bytes: Int8Array;
  at: number;
}

/** Closed tubes as bytes for the card, and what of the rope goes with each column. */
export interface Tubes {
  vertices: ArrayBuffer;
  strands: number;
  n: number;
  rays: number;
  refine: number;
  count: Int32Array;
  station: Float64Array;
  axis: Float32Array;
  radius: Float32Array;
}

/** What a motion from one state to another needs. `to` holds offsets from its middle, turned back by `turns` `(n, 4)`. */
export interface Morph {
  a: Tubes;
  from: { places: Float32Array; normals: Float32Array; axis: Float32Array };
  to: { places: Float32Array; normals: Float32Array; axis: Float32Array };
  turns: Float64Array;
  swings: Float64Array;
  rolls: Float64Array;
  along: Float64Array;
  anchor: number;
}

export interface Mesh {
  points: Float32Array;
  faces: Uint32Array;
}

export interface Shape {
  points: Float32Array;
  normals: Float32Array;
}

export interface Axes {
  right: Vector;
  up: Vector;
  toward: Vector;
}

/** A parallel camera: `scale` is pixels to a mm. */
export interface Camera extends Axes {
  centre: Vector;
  scale: number;
  width: number;
  height: number;
  halfWidth: number;
  halfHeight: number;
}

export interface Sight {
  from: Vector;
  along: Vector;
}

// ---- on the graphics card

export interface Program {
  program: WebGLProgram;
  at: Map<string, WebGLUniformLocation | null>;
}

export interface Target {
  frame: WebGLFramebuffer;
  colour: WebGLTexture;
  depth: WebGLTexture | null;
  width: number;
  height: number;
}

export interface Painter {
  canvas: HTMLCanvasElement;
  gl: GL;
  programs: Map<string, Program>;
  patterns: Map<string, WebGLBuffer>;
  targets: Map<string, Target>;
  whole: WebGLVertexArrayObject;
}

export interface Rope extends Tubes {
  buffer: WebGLBuffer;
  array: WebGLVertexArrayObject;
}

export interface OnCard {
  array: WebGLVertexArrayObject;
  count: number;
}

export interface Body extends PartRecord {
  shape: Shape;
  onCard: OnCard;
}

/** A body where it is shown. */
export interface ShownBody extends Body {
  offset: Vector;
  cut: boolean;
}

export interface Layer {
  runs: Run[];
  startEnd: boolean;
  farEnd: boolean;
  whole: boolean;
}

export interface CutPlane {
  normal: Vector;
  offset: number;
  mask: number;
}

/** What a uniform is set to; arrays by their length, the rest by what it is said to be. */
export type Uniform = number | boolean | number[] | Float32Array | Whole | Bits | List;
export type Uniforms = Record<string, Uniform | undefined>;
export interface Whole {
  whole: number;
}
export interface Bits {
  bits: Uint32Array;
}
export interface List {
  size: number;
  list: Float32Array;
}

export interface Panel {
  rect: Rect;
  size: Spot;
  camera: Camera;
  rope: Rope;
  cut: CutPlane | null;
  solid: Layer;
  clear: Layer;
  bodies: ShownBody[];
  depths: Run;
  paint: Uniforms;
  before: Uniforms | null;
  thick: number;
  ink: number[];
  /** Whether its tubes are those of the data before, seen until the new ones are made. */
  former?: boolean;
}

export interface Quality {
  pixel: number;
  over: number;
  shade: boolean;
  coarse: boolean;
  asked?: Asked[] | null;
  /** Before the names of targets that are this panel's own. */
  own?: string;
}

/** How a panel's camera sees, for the programs. */
export interface Seen {
  project: Float32Array;
  turn: Float32Array;
  range: number;
  pixel: number;
  plane: number[];
}

export interface Asked {
  buffer: WebGLBuffer;
  width: number;
  height: number;
  range: number;
  nearest: number;
}

export interface Written extends Omit<Asked, "buffer"> {
  bytes: Uint8Array;
}

export interface Under {
  strand: number;
  toward: number;
  open: boolean;
}

export interface Hit {
  place: Vector;
  station: number;
  depth: number;
  off: number;
}

// ---- what the page knows

export interface Order {
  key: string;
  kind: string;
  fine: boolean;
  only: Only;
  data: PageData;
}

export interface Making {
  record: StateRecord;
  fine: boolean;
  law: Law;
  only: Only;
}

/** What a worker has of its own. */
export interface Port {
  onmessage: ((event: MessageEvent<Making>) => void) | null;
  postMessage: (answer: { tubes: Tubes } | { problem: string }, handed?: ArrayBuffer[]) => void;
}

export interface Maker {
  kind: "worker" | "page";
  reason?: string;
  make: (making: Making) => Promise<Tubes>;
}

export interface Kept {
  rope: Rope;
  fine: boolean;
  bytes: number;
  used: number;
}

export interface Store {
  painter: Painter | null;
  maker: Maker;
  changed: (kind: string | null) => void;
  failed: (words: string) => void;
  data: PageData;
  kept: Map<string, Kept>;
  bodies: Map<BodiesRecord, Body[]>;
  queue: Order[];
  making: Order | null;
  refused: Set<string>;
  unpacking: Set<BodiesRecord>;
  /** Tubes of states shown as they were before other data came. */
  former: Map<string, Rope>;
}

export interface Picture extends PictureRecord {
  state: string;
  ghost: (Turned & { between: Turned[] }) | null;
}

export interface StepEntry {
  kind: "aim" | "step" | "question";
  key: string;
  pictures: Picture[];
  step: StepRecord;
}

export interface WrongEntry {
  kind: "wrong";
  key: string;
  pictures: Picture[];
  way: WrongRecord;
}

/** What can be shown: one picture, or two beside one another. */
export type Entry = StepEntry | WrongEntry;

export type CutWay = "off" | "across" | "flat" | "upright";

export interface Cut {
  way: CutWay;
  place: number;
  only: "all" | "host";
}

export interface Choices {
  parts: Record<string, string>;
  bodies: { terminator: boolean; tools: boolean; arrow: boolean };
  marks: boolean;
  words: boolean;
  numbers: boolean;
  ghost: boolean;
  cut: Cut;
}

/** A camera as a person left it for a picture, or as that is first seen. */
export interface Held extends Camera {
  picture: Picture;
  moved: boolean;
}

export interface Picked {
  place: Vector;
  station: number;
  panel: number;
  strand?: number;
  picture?: Picture;
}

export interface Pointer {
  spot: Spot;
  start: Spot;
  button: number;
  slipped: boolean;
}

export interface Practice {
  on: boolean;
  at: number;
  tries: number;
  first: number;
  done: boolean;
}

/** A state, and by how much its table is turned to lie as another's does. */
export interface Turned {
  state: string;
  turn: number;
}

/** Two ropes, what is needed to go from one to the other, and the rope on its way. */
export interface Moving {
  a: Rope;
  b: Rope;
  morph: Morph;
  rope: Rope;
  share: number;
}

/** Where the picture is between loading and its words: phases.js. `turn` counts changes, `rest` is ms until it is fine;
 * `fresh`: not yet shown whole since the data came; `ever`: a whole picture has been shown. */
export interface Phase {
  name: "loading" | "drawing" | "resting" | "refining" | "smoothing" | "done" | "lost";
  turn: number;
  rest: number;
  fresh: boolean;
  ever: boolean;
}

/** What happens to a picture. */
export type Happening =
  | { is: "changed"; rest: number }
  | { is: "drawn"; whole: boolean }
  | { is: "rested"; held: boolean; awaited: boolean }
  | { is: "written"; turn: number; later: boolean }
  | { is: "renewed" }
  | { is: "lost" }
  | { is: "restored" };

/** What is done in answer. */
export type Deed = "frame" | "stop" | "wait" | "wait longer" | "fine" | "smooth" | "words" | "announce" | "bare" | "refill";

export interface App {
  data: PageData;
  canvas: HTMLCanvasElement;
  store: Store;
  painter: Painter;
  choices: Choices;
  pointers: Map<number, Pointer>;
  pinched: boolean;
  cameras: Held[];
  pictures: Picture[];
  boxes: Rect[];
  measured: { points: Picked[] };
  all: { aim: StepEntry; steps: StepEntry[]; wrong: WrongEntry[]; any: boolean };
  entries: Entry[];
  entry: Entry;
  at: number;
  leftAt: number;
  view: number;
  into: string | null;
  tab: string;
  bench: boolean;
  practice: Practice;
  labels: HTMLElement;
  over: HTMLElement;
  under: HTMLElement;
  note: HTMLElement;
  corner: HTMLElement;
  covers: HTMLElement[];
  steer: { slider: HTMLInputElement; place: HTMLElement; before: HTMLInputElement; after: HTMLInputElement };
  size: { width: number; height: number; ratio: number };
  strip: number;
  phase: Phase;
  /** What is where in the fine picture, by panel. */
  written: Written[];
  /** Fine pictures drawn so far. */
  fine: number;
  /** Whether the first picture took so long that device pixels are no longer drawn while moving. */
  slow: boolean;
  firstTook: number | undefined;
  rest: Timer;
  saying: Timer;
  /** How far the rope is on its way from the state before, 0 to 1. */
  motion: number;
  moving: Moving | null;
  reading: Reading;
  aloud: Timer;
  spoken: SpeechSynthesisUtterance | null;
  waiting: ((at: number) => void)[];
  resting: ((at: number) => void)[];
  awake: WakeLockSentinel | null;
  waking: boolean;
  fragment: string | undefined;
  returning: boolean;
  keptAt: number;
}

/** What is read aloud: reading.js. `at`: the sentence, `pause`: seconds after it, 0 where the step ends it. */
export interface Reading {
  name: "silent" | "saying" | "pausing";
  at: number;
  pause: number;
}

export type ReadingHappening = { is: "start"; pause: number } | { is: "stop" | "moved" | "said" | "waited" };
export type ReadingDeed = "none" | "say" | "hush" | "wait" | "go on";

export type Timer = ReturnType<typeof setTimeout> | undefined;

/** Free room in a panel for words: sums of drawn cells, and boxes and leaders that are taken. */
export interface Room {
  left: number;
  top: number;
  width: number;
  height: number;
  across: number;
  down: number;
  sums: Int32Array;
  numbers: Written;
  boxes: Box[];
  leaders: Line[];
}

export interface Wanted {
  letter: string;
  words: string;
  at: Vector;
  spot: Vector;
}

export interface Space {
  away: number;
  box: Box;
  short: number;
}

export interface Label {
  letter: string;
  spot: Vector;
  said: HTMLElement;
  made: HTMLElement;
  sizes: Spot[];
  spaces: Map<string, Space[]>;
}

/** Places of a thin rope that are shown near: their middle, mm, what is seen across, mm, and their letters. */
export interface Cluster {
  places: { letter: string; at: Vector }[];
  middle: Vector;
  span: number;
}

export interface Inset {
  box: Box;
  spot: Vector;
  places: Cluster["places"];
  camera: Camera;
}

export interface Arranged {
  cost: number;
  placed: Map<Label, Space>;
  poor: Label[];
}

/** Middles of strands on the picture, by strand and column of an opened place. */
export interface Lines {
  lines: Vector[][];
  column: (slide: number) => number;
}

/** Directions of sections' rays: across and square to the flat side, by node. */
export interface Around {
  across: Float64Array;
  flat: Float64Array;
  free: Free;
  rays: number;
}

// ---- the live page

export interface Field {
  key: string;
  group: string;
  label: string;
  kind: string;
  default: string;
  units: string;
  bounds: string;
  choices: string[][];
  of: string[];
  /** What is to be measured. */
  note: string;
  /** The field that says which terminator there is. */
  kindKey: string;
  /** Whether most jobs leave its group empty. */
  more: boolean;
}

/** One field that should follow the rope. */
export interface Follow {
  key: string;
  label: string;
  old: string;
  new: string;
  why: string;
}

/** How far a build is, and what a phone is shown. */
export interface BuildNews {
  phase: "idle" | "building" | "done" | "failed" | "stopped";
  share: number;
  words: string;
  name: string;
  phone: { url: string; name: string } | null;
}

export interface ResultGroup {
  title: string;
  files: { path: string; size: number }[];
}

/** A file of the folder that is worked in. */
export interface WorkFile {
  file: string;
  kind: "job" | "set" | "loft" | "measured" | "table" | "other" | "broken";
  title: string;
  about: string;
  used: number;
}

/** The start page's folder and what is in it. */
export interface Home {
  folder: string;
  files: WorkFile[];
  examples: { key: string; words: string }[];
}

/** A server's answer; status 0 where it can't be reached. */
export interface Answer {
  status: number;
  data: any;
  text?: string;
}

export interface News {
  change: number;
  phase: string;
  share: number;
  words: string;
  shown: number;
  shown_change: number;
}

/** What the live page knows. */
export interface Live {
  fields: Field[];
  texts: Record<string, string>;
  /** Edits so far. */
  number: number;
  /** The last edit whose answer is here. */
  sent: number;
  /** The last change of the job that came of it. */
  mine: number;
  /** The last change there was news of. */
  heard: number;
  /** The newest data asked for. */
  shown: number;
  timer: Timer;
  patience: Timer;
  /** The splice's window, as soon as there is one. */
  frame: Promise<Window> | null;
  /** Whether what stands in the fields was refused. */
  wrong: boolean;
  /** Whether the fields are on their way. */
  busy: boolean;
  /** Whether a person has just said what follows the rope. */
  agreed: boolean;
}

export interface PlanShown extends Record<"marks" | "lengths" | "figures", Figure[]> {
  warnings: string[];
  cautions: string[];
}

declare global {
  interface Window {
    /** Puts other data into the open page. */
    fidpathLoad: (text: string) => void;
    /** What tests and an outer page may ask. */
    fidpathPage: Record<string, (...values: any[]) => unknown>;
  }
}
