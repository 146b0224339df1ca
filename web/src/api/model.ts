/** The names by which the page knows the generated types. */
import type { components } from "./types";

type Schemas = components["schemas"];

// what the server says of a job
export type Session = Schemas["Session"];
export type SchemaKey = Schemas["SchemaKey"];
export type JobState = Schemas["JobState"];
export type Draft = Schemas["Draft"];
export type Diagnostic = Schemas["Diagnostic"];
export type Edit = Schemas["Edit"];
export type Trial = Schemas["Trial"];
export type DiskText = Schemas["DiskText"];
export type JobEvent = Schemas["JobEvent"];
export type Drawer = Schemas["Drawer"];
export type DrawerShim = Schemas["DrawerShim"];
export type StackView = Schemas["StackView"];
export type DiscView = Schemas["DiscView"];
/** One stack under one load: a speed of the shaft [m/s] or a pressure drop over the face shim [Pa]. */
export interface Bend {
  readonly path: string;
  readonly speed?: number;
  readonly pressure?: number;
}

// what a job gives
export type ResultDocument = Schemas["ResultDocument"];
export type Finding = Schemas["Finding"];
/** Where in the order of the work a part of the job is done. */
export type StationId = Finding["station"];
export type KeyFigure = Schemas["KeyFigure"];
export type KeyForceFigures = Schemas["KeyForceFigures"];
export type KeyFigures = Schemas["KeyFigures"];
export type UnitResult = Schemas["UnitResult"];
/** Which of a unit's two valves. */
export type ValvePlace = UnitResult["valves"][number]["place"];
export type StackResult = Schemas["StackResult"];
export type StackGeometry = Schemas["StackGeometry"];
export type DiscDrawing = Schemas["DiscDrawing"];
export type PostResult = Schemas["PostResult"];
export type LedgerLine = Schemas["LedgerLine"];
export type SagResult = Schemas["SagResult"];
export type SettingsGuide = Schemas["SettingsGuide"];
export type ForceChange = Schemas["ForceChange"];
export type Stroke = ForceChange["stroke"];

export type PlotSpec = Schemas["PlotSpec"];
export type PlotAxis = Schemas["PlotAxis"];
export type PlotLine = Schemas["PlotLine"];
export type PlotMark = Schemas["PlotMark"];

// what a run on the bench gives
export type BenchDocument = Schemas["BenchDocument"];
export type BenchUnit = Schemas["BenchUnit"];
export type BenchRun = Schemas["BenchRun"];
export type BenchSprings = Schemas["BenchSprings"];
export type ReleaseTrace = Schemas["ReleaseTrace"];
export type RunProgress = Schemas["RunProgress"];
