// What web/engine.js finds in its worker, beside what every worker has.
declare class Go {
  importObject: WebAssembly.Imports;
  run(instance: WebAssembly.Instance): Promise<void>;
}
