/**
 * Which build this page is and where its engine lies, as written into
 * index.html by the build.
 */
const meta = /** @type {HTMLMetaElement} */ (document.querySelector('meta[name="tautspan-build"]'));

/** @type {{version: string, worker: string, wasm: string, photo: string, photoWorker: string, licences: string}} */
export const build = {
  version: meta.content,
  worker: String(meta.dataset.worker),
  wasm: String(meta.dataset.wasm),
  photo: String(meta.dataset.photo),
  photoWorker: String(meta.dataset.photoWorker),
  licences: String(meta.dataset.licences),
};
