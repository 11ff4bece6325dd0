// Names that the build or the engine puts there.
declare module 'wasm_exec';
declare class Go {
  env: Record<string, string>;
  importObject: WebAssembly.Imports;
  run(instance: WebAssembly.Instance): Promise<void>;
}
declare function tautspanCall(name: string, json: string): string;
declare function tautspanRecords(name: string, json: string): string;
declare function tautspanRide(read: (from: number, to: number) => Uint8Array): string;
declare function tautspanPhoto(file: Uint8Array, json: string): string;
declare const VERSION: string;
declare const PRECACHE: [url: string, integrity: string][];
declare const LATER: [url: string, integrity: string][];
