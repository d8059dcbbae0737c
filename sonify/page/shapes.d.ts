// The shapes of what the pages are given as JSON, and of what their modules hand each other. Types alone: nothing of
// it reaches a browser. What writes them: document.py, timing.py, curves.py, particles.py; data/plan.py, web/.

import type { PieceClock } from './clock.js';
import type { Player } from './player.js';
import type { Piece } from './screen.js';

// --- words ---------------------------------------------------------------------------------------------------------

export type WordPiece = string | { place: string; variants?: Record<string, WordPiece[]>; other?: string };
export type Places = Record<string, string | number>;

// --- a lesson's page -----------------------------------------------------------------------------------------------

export interface LessonData {
  title: string;
  timing: Timing;
  stages: Stage[];
  groups: Group[];
  parts: Part[];
  moments: Moment[];
  science: Science;
  listening: Question[];
}

export interface Timing {
  beatsABar: number;
  countInBars: number;
  bars: [bar: number, startS: number, perBeatS: number][];
  pieceBars: number;
  endS: number;
  tempi: Tempo[];
}

export interface Tempo {
  bar: number;
  bpm: number;
  words: string;
}

export interface Stage {
  name: string;
  title: string;
  letter: string;
  caption: string;
  bar: number;
  bars: number;
  startS: number;
  endS: number;
  tempo: string;
}

export interface Group {
  number: number;
  name: string;
  across: number;
  up: number;
}

export interface Part {
  name: string;
  group: number;
  instruments: string;
  spans: [first: number, after: number, heard: string][];
  dynamics: [bar: number, mark: string, words: string][];
}

export interface Playing {
  name: string;
  group: number;
  instruments: string;
  heard: string;
  loud: string;
}

export interface Moment {
  beat: number;
  lines: CueLine[];
}

export interface CueLine {
  group: number;
  who: string;
  action: string;
  what: string;
  gesture: string;
  reason: string;
}

export interface Science {
  curves: Curve[];
  times: string[];
  events: { beat: number; bar: number; text: string }[];
  height: number;
  measured: boolean;
}

export interface Curve {
  name: string;
  heading: string;
  whose: string;
  points: number[];
  kind: 'bars' | 'points' | 'line';
  paths: string[]; // one for each that is drawn; none where the points are the line
  names: [name: string, level: number][]; // of what is compared, and how high each stands
  low: string[];
  high: string[];
  steps: { bar: number; bars: number; level: number; words: string }[];
  values: string[];
  described: string;
}

export interface Question {
  clips: { bar: number; after: number; name: string }[];
  choices: { words: string }[];
  answer: number;
  why: string;
  group: number;
}

export interface Sounds {
  rateHz: number;
  samples: { name: string; loop: boolean; pcm: string }[];
  events: Record<'timeS' | 'part' | 'sample' | 'gain' | 'pan' | 'lastsS', number[]>;
  room?: { rateHz: number; ears: string[]; gain: number };
  beds: Bed[];
  toCome?: boolean;
}

// A rule along its key: rows of value and sound in words, and where each begins, the end behind them.
export interface AxisSounds extends Sounds {
  starts: number[];
  rows: string[][];
  buffers?: AudioBuffer[];
}

export interface Bed {
  sample: number;
  levels: Corner[];
}

export type Corner = [atS: number, level: number];

export interface FilmData {
  particles: number;
  frames: number;
  framesASecond: number;
  heldFrames: number;
  radius: number;
  first: string;
  moves: string;
  scale: number;
  ringed: number;
  knocks: { step: string; one: string; other: string; hard: string; stepsAFrame: number };
  height: number;
  levels: number[];
  temperatures: string[];
  speeds: number[];
  realSpeeds: number[];
  beats: number[];
  knocksASecond: number[];
  stages: FilmStage[];
}

export interface FilmStage {
  word: string;
  what: string;
  from: number;
  to: number;
  science: string;
}

// A place in the piece, as the clock has it, and as the player shows it.
export interface BeatPlace {
  bar: number;
  beat: number;
  phase: number;
  beats: number;
  perBeatS: number;
}

export interface Now extends BeatPlace {
  positionS: number;
  counting: number;
  restart: boolean;
}

// A stretch of playing: from `atS` of the audio clock on, the piece runs from `fromS` at a speed.
export interface Run {
  atS: number;
  fromS: number;
  musicS: number;
  countIn: number;
  perBeatS: number;
  doneS: number;
  speed: number;
  repeats: boolean;
  endS: number;
}

export interface Clip {
  question: number;
  number: number;
  fromS: number;
  toS: number;
  alone: number | null;
}

export interface Voice {
  source: AudioBufferSourceNode;
  gain: GainNode;
  startS: number;
  held: boolean;
}

export interface Recording {
  buffer: AudioBuffer;
  loop: boolean;
  loopStart: number;
  loopEnd: number;
}

// How the film runs on the audio clock: from `from` at `atS`, between `low` and `high`.
export interface BoxPlan {
  atS: number;
  from: number;
  low: number;
  high: number;
  heating: boolean;
  doneS: number;
}

// What the views of a page work with.
export interface Shared {
  player: Player;
  piece: Piece;
  clock: PieceClock;
  data: LessonData;
  go: Go;
  playOrPause: () => void;
}

export interface Go {
  to(stage: number): void;
  by(steps: number): void;
  start(): void;
}

// --- Plan and Print ------------------------------------------------------------------------------------------------

export interface Start {
  first: string;
  scenes: SceneRow[];
  keeps: boolean;
  home: boolean; // the browser runs on the computer of the program
  shared: boolean;
  needs: string[];
  needs_of_pupils: string[];
  class: ClassFacts;
  most_bytes: Record<'scene' | 'class' | 'csv' | 'pack', number>;
  terms: Record<string, string>;
  controls: Record<string, string>;
  units: Record<string, string>;
  shapes: [name: string, words: string, closes: boolean][];
}

export interface ClassFacts {
  year: number;
  pupils: number;
  groups: number;
  minutes: number;
  needs: string[];
  cupboard: Record<string, number>;
}

// The class of a plan: from a file (its text, and what the form shows of it), and what was changed since.
export type ClassGiven = Partial<ClassFacts> & { text?: string; file?: string; facts?: ClassFacts };

export interface SceneGiven {
  name?: string;
  text?: string;
  file?: string;
  csv?: string;
  csv_key?: string;
}

export interface RuleChange {
  from?: string[];
  to?: string[];
  curve?: string;
}

// What a plan is made from: all that is sent, kept in the tab, and undone.
export interface Inputs {
  scene: SceneGiven | null;
  set: Record<string, string>;
  rules: Record<string, RuleChange>;
  drawn: Record<string, unknown>;
  edits: Record<string, unknown>; // words, parts and rules of a person's own, by their paths
  sounds: Record<string, string>; // recordings of this computer by the file names that the scene has for them
  class: ClassGiven | null;
  scaffold: string;
  seed: number;
  plan_id: string;
  class_id: string;
}

// A ready-made scene, by what it is found. sounds: of each part the instruments of the cupboard that would do.
export interface SceneRow {
  name: string;
  minutes: number;
  topics: string[];
  years: number[];
  kind: string;
  sounds: string[][];
}

// A plan or a class that is kept on this computer: when each of its states came to be, the newest last.
export interface KeptRow {
  id: string;
  name: string;
  gone: boolean;
  states: number[];
  scene?: string;
  class_id?: string;
  untouched?: boolean;
}

export interface Shelf {
  keeps: boolean;
  why: string;
  plans: KeptRow[];
  classes: KeptRow[];
  opened?: Partial<Inputs>;
  kept?: { id: string; name: string };
}

export interface Steps {
  texts: string[];
  shown: string[];
  at: number;
}

export interface Plan {
  title: string;
  story: string;
  ages: number[];
  curriculum: string[] | string | null;
  conditions: Condition[];
  rules: RuleRow[];
  curves: PlanCurve[];
  stages: PlanStage[];
  map: MapRow[];
  patterns: PatternFacts;
  texts: TextRow[];
  parts: PartRow[];
  at_hand: Instrument[];
  choices: Choices;
  findings: Finding[];
  changed: string[];
  seconds: number;
  bars: number;
  scene_file: string;
  scene_toml: string;
  class_toml: string;
  class_toml_to_send: string;
  data_file?: string | null;
  table?: OwnTable | null;
  drawing?: Drawing | null;
}

// A class's own table: its columns, each with its role, what was understood and guessed, and its graph.
export interface OwnTable {
  file: string;
  columns: TableColumn[];
  rows: number;
  roles: [role: string, words: string][];
  tables: string[];
  chosen: string;
  told: string[];
  doubts: string[];
  shipped: boolean;
  name: string;
  graph: Graph;
}

// A place in the stages, and the value there.
export type Place = [place: number, value: number];

export interface Drawing {
  own: boolean;
  circle: boolean;
  stages: { name: string; title: string }[];
  quantities: DrawnRow[];
}

export interface DrawnRow {
  number: number;
  name: string;
  unit_shown: string;
  shape: string;
  line: Place[];
  low: number;
  high: number;
}

export interface TableColumn {
  label: string;
  kind: string;
  role: string;
  cells: string[];
}

export interface Graph {
  kind: 'bars' | 'line' | 'points';
  across: string;
  up: string;
  steps: number[];
  marks: [step: number, words: string][];
  low: number;
  high: number;
  ticks: [value: number, words: string][];
  series: GraphSeries[];
  fitted: [x: number, y: number][];
  joined: boolean;
}

export interface GraphSeries {
  group: string;
  values: (number | null)[];
  least: (number | null)[];
  most: (number | null)[];
  shown: string[];
}

export interface Condition extends NumberShown {
  name: string;
  label: string;
  help: string;
  changed: boolean;
  choices?: Steps;
}

export interface NumberShown {
  value: number;
  unit: string;
  low: number;
  high: number;
  step: number;
}

export interface RuleRow {
  index: string; // the number that it had in the scene, or "new-1"
  quantity: string;
  meaning: string;
  control: string;
  part: string;
  from: string[];
  to: string[];
  from_low: Steps;
  from_high: Steps;
  to_low: Steps;
  to_high: Steps;
  curve: string;
  curves: string[];
  why: string;
  sentence: string;
  exaggeration: string;
  audible: boolean;
  verdict: string;
  key: string[][];
  heard: string[][];
}

export interface PlanCurve {
  quantity: string;
  unit: string;
  joined: boolean; // a line between two values means something
  points: [x: number, y: number][];
  low: number;
  high: number;
  low_beside: string;
  high_beside: string;
  lead: boolean;
  first: boolean;
  drawn?: boolean;
  described?: string;
}

// A text of the scene. original: the scene's own, null where it has none. claimed: what the scene's own words claim.
export interface TextRow {
  path: string;
  text: string;
  original: string | null;
  claims: { text: string; says: string; holds: boolean }[]; // text: as the scene has it; says: with its parts as they are called now
  claimed: string[];
  age: number | null;
  loose: string[];
}

// A part as the scene asks for it, and what came of it. sounds: ids of what it asks for, as `written` in the scene.
export interface PartRow {
  id: string;
  name: string;
  texture: string;
  sounds: string[];
  written: string[];
  stages: 'all' | string[];
  rests: boolean;
  line: string;
  silent: boolean;
  groups: number[]; // that somebody gave it to
  seated: boolean; // the scene itself gives it to groups
  meaning: string;
  only_beat: boolean; // its texture is what it is
  notes: boolean; // it needs an instrument with notes
  played: { group: number; team: number; players: number; given: string[]; line: string }[];
  findings: Pick<Finding, 'kind' | 'message' | 'fix' | 'serious'>[];
  swaps: { wanted: string; given: string; reason: string }[];
}

export interface Instrument {
  id: string;
  name: string;
  count: number; // 0: it needs no cupboard
  textures: string[];
  pitched: boolean;
}

// What mends a part: keys of it that are set anew (`part.new-1.line` too), and values of the class.
export interface Mend {
  words: string;
  edits: Record<string, unknown>;
  class?: Partial<ClassFacts>;
}

export interface Choices {
  textures: string[];
  lines: string[];
  stages: [name: string, title: string][];
  quantities: { name: string; meaning: string; unit: string; from: string[] }[];
  controls: Record<string, string[]>;
  ends: Record<string, string[]>;
}

export interface PlanStage {
  bar: number;
  name: string;
  title: string;
  bars: number;
  bpm: number;
  seconds_text: string;
}

export interface MapRow {
  group: number;
  name: string;
  part: string;
  instrument: string;
  players: number;
  sharing: string;
  swaps: { wanted: string; given: string; reason: string }[];
  stages: (number | null)[];
}

export interface Finding {
  kind: string;
  message: string;
  fix: string;
  serious: boolean;
  rule: string; // which one mends it, with what ends
  change: RuleChange;
}

export interface Waiting {
  waiting?: string;
}

// What a field shows: a number between ends, a row of steps, or a choice.
export interface FieldData extends Partial<NumberShown> {
  steps?: Steps | undefined;
  choices?: [name: string, words: string][] | undefined;
  chosen?: string;
  help?: string;
  changed?: boolean;
}

export interface PackFile {
  n: number;
  name: string;
  bytes: number;
  words: string;
  pages: number;
}

export interface JobState {
  state: string | null;
  ahead?: number;
  doing?: string;
  share?: number;
  error?: string;
  files: PackFile[];
}

export type Again = (() => void) | null;

export type Told = (words: string) => void;

// --- a group's own pattern -----------------------------------------------------------------------------------------

// As a scene file has it: a text of boxes for each bar, a note for each sound.
export interface OwnPattern {
  boxes: string[];
  notes?: string[];
  name?: string;
}

export interface PatternFacts {
  beats: number;
  boxes_a_beat: number[];
  most_bars: number;
  parts: PatternPart[];
}

// own: what the scene has for the part. played: what hands and bars allow of it, where that is not all.
export interface PatternPart {
  part: string;
  group: number;
  instrument: string;
  held: boolean;
  notes: string[];
  bpm: number;
  own: OwnPattern | null;
  played: OwnPattern | null;
  told: { message: string; fix: string }[];
}

// --- the class's own recording -------------------------------------------------------------------------------------

export interface RecordingState {
  state: string;
  doing: string;
  share: number;
  error: string;
  told: Measured | null;
  from_phone: boolean;
}

// What data/listened.py and paper/performed.py tell of a recording.
export interface Measured {
  recognised: boolean;
  why: string;
  start_s: number | null;
  end_s: number | null;
  takes: number;
  clipped: boolean;
  stages: MeasuredStage[];
  questions: { question: string; answer: string; why: string }[];
  next_run: string[];
  bars: { bar: number; start_s: number }[];
  sheet: { plot: RecordingPlot | null; rows: { told: string }[]; reflect: string[] };
}

export interface MeasuredStage {
  letter: string;
  title: string;
  bar: number;
  bpm: number | null;
  bpm_low: number | null;
  bpm_high: number | null;
  planned_bpm: number;
}

export interface RecordingPlot {
  legend: string;
  'unit-told': string;
  ticks: { at: number; text: string }[];
  science: [across: number, up: number][];
  stages: { letter: string; from: number; to: number; ours: number | null; low: number | null; high: number | null; above: boolean | null }[];
}
