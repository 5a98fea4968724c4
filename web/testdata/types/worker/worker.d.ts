// What web/engine.js finds in its worker, and leaves there, beside what every worker has.
declare class Go {
  importObject: WebAssembly.Imports;
  run(instance: WebAssembly.Instance): Promise<void>;
}
declare var keelroomMoves: MessagePort | undefined;
