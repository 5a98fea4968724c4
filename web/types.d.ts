// Types of what the scripts hand to each other, for the compiler that checks them
// (go test ./web -run TestTypes). Nothing here is served.

type Point = [number, number];
type Box = [number, number, number, number]; // west, south, east, north, or left, top, right, bottom
type Ctx = CanvasRenderingContext2D;
/** What paths are put into: a canvas, or what counts in its place. */
type Path = Pick<Ctx, "moveTo" | "lineTo" | "closePath" | "beginPath">;
type Turns = Generator<void, void, unknown>; // work that gives way after each piece

// What goes into the page by the tags before the modules.
interface Page {
  bar(className: string, text: string): HTMLElement;
  tell(box: HTMLElement, text: string): void;
  button(text: string, press: (event: Event) => void): HTMLButtonElement;
  ask(worker: ServiceWorker, what: string, milliseconds?: number): Promise<{ version: string; whole: boolean | null } | null>;
  settled(worker: ServiceWorker): Promise<void>;
  useVersion(waiting: ServiceWorker): Promise<string>;
  folder: URL;
  base: URL;
  version: string;
  program: Promise<WebAssembly.Module>;
}
declare var keelroomPage: Page;
declare var keelroomModule: WebAssembly.Module | undefined;
declare var keelroomStore: { idle(): Promise<void> } | undefined;
declare var keelroomUnsaved: (() => string) | undefined;
declare var keelroomStopped: (why: string) => void;
declare var keelroomMissing: (file: string, integrity?: string) => void;
declare var keelroomWhole: () => boolean;
declare var goappGetenv: (name: string) => string | undefined;
declare var launchQueue: { setConsumer(take: (launch: { files?: FileSystemFileHandle[] }) => void): void } | undefined;

declare class Go {
  importObject: WebAssembly.Imports;
  run(instance: WebAssembly.Instance): Promise<void>;
}

// The map library, as far as the chart view uses it.
interface MapEvent {
  type: string;
  pixel: Point;
  coordinate: Point;
  dragging: boolean;
  activePointers?: PointerEvent[];
  originalEvent: PointerEvent;
}
interface ViewState {
  size: Point;
  viewState: { center: Point; resolution: number };
  viewHints: number[];
}
declare namespace ol {
  class Layer {
    constructor(options: { render(state: ViewState): HTMLElement });
  }
  interface ViewTarget {
    center?: Point;
    resolution?: number;
  }
  class View {
    constructor(options: object);
    getCenter(): Point;
    setCenter(center: Point): void;
    getResolution(): number;
    setResolution(resolution: number): void;
    getConstrainedResolution(resolution: number): number;
    cancelAnimations(): void;
    animate(to: ViewTarget & { duration: number }): void;
    fit(box: Box, options: object): void;
  }
  class Map {
    constructor(options: object);
    on(name: string, run: () => void): void;
    addInteraction(interaction: object): void;
    setTarget(target: undefined): void;
    dispose(): void;
    updateSize(): void;
    getSize(): Point | undefined;
    render(): void;
    renderSync(): void;
    getCoordinateFromPixel(pixel: Point): Point | null;
    getPixelFromCoordinate(at: Point): Point;
  }
  class Kinetic {
    constructor(decay: number, minVelocity: number, delay: number);
  }
  class DragPan {
    constructor(options: { kinetic: Kinetic | undefined });
  }
  class PinchZoom {}
  class MouseWheelZoom {
    constructor(options: { duration: number; useAnchor: boolean });
  }
  class DoubleClickZoom {
    constructor(options: { duration: number });
  }
  class PointerInteraction {
    constructor(options: { handleEvent(event: MapEvent): boolean });
  }
}

// What the engine says once of its rules: app/engine/rules.go.
interface Rules {
  worst_first: string[];
  verdicts: Record<string, string>;
}

// The chart.

/** A picture of a part of the chart, see chart/space.js. */
interface Frame {
  centre: Point;
  resolution: number;
  ratio: number;
  width: number;
  height: number;
  perM: number;
  west: number;
  north: number;
  east: number;
  south: number;
  scale: number;
}
type ToScreen = (at: Point) => Point;

/** Members of a charted thing: attributes of S-57 and what the engine adds. */
type Props = Record<string, any>;
/** Colours of a palette by what they are for. */
type Colours = Record<string, string>;
interface Pen {
  key: string;
  width: number;
  dash?: number[] | null;
  ticks?: boolean;
  plate?: boolean;
}
/** How a class is drawn, see chart/classes.js. */
interface Look {
  water?: boolean;
  fill?: string;
  fillOrder?: number;
  order?: number;
  pen?: Pen;
  style?(p: Props): Pen;
  words?(p: Props): string;
  casing?: boolean;
  band?: boolean;
  name?: string;
  point?: string;
  rank?: number;
  scale?: number;
  labelScale?: number;
}
interface Outline {
  xy: Float64Array | number[]; // pairs
  ends: number[]; // where each ring or line ends, counted in pairs
}
interface Shape extends Outline {
  kind: string;
  box: Box;
  props: Props;
  look: Look;
  scamin: number;
}
interface LayerSet {
  id: string;
  title: string;
  scale: number;
  authority: string;
  left: number; // features that could not be drawn
  shapes: Shape[];
  water: Shape[];
  cover: Shape[];
  lines: Shape[];
  contours: Shape[];
  soundings: Shape[];
  beds: Shape[];
  points: Shape[];
  box: Box;
  bounds: number[];
}
interface WaterLevels {
  dries_m: number;
  afloat_m: number;
  enough_m: number;
}
interface WaterStates {
  stateIn(set: LayerSet, bound: unknown): string;
}
/** What the ground is to show while it is painted. */
interface Ground {
  sets: LayerSet[];
  states: WaterStates;
  palette: string;
  privateCovers: boolean;
}
/** Where writing goes, with the angle of the line that it goes along. */
interface Spot {
  x: number;
  y: number;
  angle?: number;
}
type DepthWriting = Omit<Writing, "halo"> & { halo?: string };
interface Writing {
  size: number;
  colour: string;
  halo: string;
  unit: number;
  serif?: boolean;
  style?: string;
  pad?: number;
  force?: boolean;
}

/** Paints a part of the ink of a set. */
type Phase = (ctx: Ctx, set: LayerSet, frame: Frame, colours: Colours, room: Room) => Turns;
/** A fill, or null where there is none. */
type Style = string | CanvasPattern | null;
/** Draws the symbol of a thing at a place of the picture. */
type DrawSymbol = (ctx: Ctx, p: Props, x: number, y: number, u: number, c: Colours) => void;

type Room = import("./chart/labels.js").Room;
type States = ReturnType<import("./chart/water.js").Water["snapshot"]>;
type Scene = import("./chart/scene.js").Scene;
type Board = import("./chart/board.js").Board;
type Picture = import("./chart/picture.js").Picture;

// The plan and its report on the chart.
interface PlanItem {
  feature: number;
  role: string;
  name: string;
  props: Props;
  degrees: Point[];
  points: Point[];
}
interface PlanView {
  items: PlanItem[];
}
interface Leg {
  number: number;
  feature: number;
  vertex: number;
  a: Point;
  b: Point;
}
/** A leg in the picture. */
interface SeenLeg extends Leg {
  from: Point;
  to: Point;
  severity: string;
}
interface ReportItem {
  props: Props;
  lines: Point[][];
  type: string;
}
interface Finding extends ReportItem {
  index: number;
  also: Point[];
}
interface ReportView {
  legs: Map<number, ReportItem>;
  findings: Finding[];
  zones: ReportItem[];
  slowDowns: ReportItem[];
  clearances: ReportItem[];
  circles: ReportItem[];
  worst: Map<number, string>;
}
/** A point that is drawn elsewhere than in the plan, or one more. */
interface DrawnPoint {
  feature: number;
  vertex: number;
  point: Point;
  /** The points that go along with it, by feature and vertex. */
  along?: [number, number][];
}
interface Drag extends DrawnPoint {
  insert: boolean;
  /** When the pointer came there, in ms. */
  at: number;
  /** It was let go, and waits for the plan with the point there. */
  dropped?: boolean;
}
/** What is known of the plan with a point elsewhere; see chart/live.js. */
interface Live extends DrawnPoint {
  insert?: boolean;
  at?: number;
  report: ReportView | null;
  /** It is the plan as it was checked, before the first answer. */
  checked?: boolean;
}
/** A place of a point that is dragged, of which the worker is asked. */
interface Place {
  feature: number;
  vertex: number;
  lon: number;
  lat: number;
  insert: boolean;
  at: number;
}
/** What a drag asks of whoever knows the way to the worker. */
interface DragHost {
  ask(place: Place): void;
  end(): void;
  giveUp(): void;
}
/** What the page's program is told of a drag. */
interface Moving {
  head?: object;
  words?: string;
  late?: boolean;
}
/** What is drawn while a point is dragged. */
interface Shown {
  plan: PlanView;
  report: ReportView;
  byNumber: boolean;
  /** The point that is dragged, as drawn; null for none. */
  at: (DrawnPoint & { at?: number }) | null;
}
/** What a pointer has taken hold of: a point, or the handle of a point to come. */
interface Grip {
  feature: number;
  vertex: number;
  from: Point;
  offset: Point;
  insert: boolean;
}
/** A pointer that is down. */
interface Down {
  px: number;
  py: number;
  type: string;
  moved: boolean;
  held: boolean;
  grip: Grip | null;
}
interface Selected {
  feature?: number;
  vertex?: number;
  finding?: number;
}
interface Near {
  feature: number;
  vertex: number;
  distance: number;
  point: Point;
}
type Notify = (kind: string, detail?: object) => void;

// The day strip. Times are Unix seconds.
interface Span {
  from: number;
  to: number;
  kind: string;
}
interface Block extends Span {
  part: number;
  name?: string;
}
interface Wind {
  t: number;
  from_deg: number;
  kn: number;
  gust_kn: number;
}
interface Hour {
  t: number;
  label: string;
  again?: boolean;
}
interface Tide {
  points: (Point | null)[]; // time and height
  events: { t: number; kind: string; h: number }[];
}
interface Day {
  zone: string;
  from: number;
  to: number;
  step_s: number; // between two heights of tide, and two places of the cursor
  hours: Hour[];
  tide: Tide | null;
  light: Span[];
  wind: Wind[];
  blocks: Block[];
}
interface Slot {
  t: number;
  verdict: string;
  title?: string;
}
interface Row {
  y: number;
  h: number;
  end: number;
}
interface Layout {
  width: number;
  height: number;
  compact: boolean;
  rows: Record<string, Row>;
  font: number;
}
/** A stretch of the tide that is known, or not, from one point to another. */
interface Stretch {
  known: boolean;
  start: number;
  end: number;
}
/** Departures of one verdict, one after the other. */
interface Run {
  verdict: string;
  from: number;
  to: number;
}
/** Writes words at a place if there is room for them. */
type Say = (x: number, y: number, text: string, kind: string, anchor?: string) => boolean;
/** A change of the plan's times in hand. */
interface Change {
  kind: string;
  part: number;
  first: number;
  by: number;
}
/** What takes hold of a block, or of the end of a stay. */
interface Hold {
  e: HTMLElement;
  kind: string;
  block: Block;
  timer: number;
  by: number;
}
interface CursorParts {
  e: HTMLElement;
  line: HTMLElement;
  flag: HTMLElement;
  dot: HTMLElement;
  widths: Map<string, number>; // of the flag, by what it says
}
interface StripView {
  div: HTMLElement;
  root: HTMLElement;
  svg: SVGSVGElement;
  spoken: HTMLElement;
  cursorParts: CursorParts;
  ribbonParts: { e: HTMLElement };
  watch: ResizeObserver;
  day: Day | null;
  slots: Slot[];
  slotStep: number; // seconds
  cursor: number | null;
  change: Change | null;
  picked: Slot | null;
  holds: Map<string, Hold>;
  layout: Layout;
  yOf: ((height: number) => number) | null;
  frame: (() => void) | null;
  frameId: number;
  drawId: number;
  waiting: number;
  tell: Notify;
  draw(): void;
  eachFrame(run: () => void): void;
  runFrame(): void;
}
/** The same while there is a day to show. */
interface StripOfDay extends StripView {
  day: Day;
}

// What is kept on the device.
interface PlanRecord {
  id: string;
  rev: number;
}
interface SetRecord {
  id: string;
  was: string;
}
interface NamedFile {
  name: string;
  file: File;
}
// How large files may be: engine.FileLimits.
interface FileKind {
  names: string;
  begins?: string;
  bytes: number;
  sum?: boolean;
  aside?: boolean;
  words: string;
}
interface FileLimits {
  files: number;
  together: FileKind;
  kinds: FileKind[];
}
interface ReadFile {
  name: string;
  data: Uint8Array;
}

/** The anchor watch as the chart draws it. */
type AnchorWatch = import("./chart/watched.js").Watched;
