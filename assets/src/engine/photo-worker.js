/**
 * The worker that measures one picture: it is given the compiled photo engine,
 * the picture's file and the request, answers once, and is ended by the page.
 */
import 'wasm_exec';

addEventListener('message', ({ data }) => {
  measure(data).catch((error) => postMessage({ crash: String(error) }));
});

/** @param {{module: WebAssembly.Module, file: Blob, json: string}} task */
async function measure({ module, file, json }) {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const go = new Go();
  const instance = await WebAssembly.instantiate(module, go.importObject);
  // The program sets tautspanPhoto and then waits for ever.
  go.run(instance).then(() => postMessage({ crash: 'the engine ended' }));
  postMessage({ json: tautspanPhoto(bytes, json) });
}
