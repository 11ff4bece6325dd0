/** Fetches and compiles a program of the engine's. */

/** @param {string} url @returns {Promise<WebAssembly.Module>} */
export async function compile(url) {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`the engine's file answered ${response.status}`);
  if (WebAssembly.compileStreaming) return WebAssembly.compileStreaming(response);
  return WebAssembly.compile(await response.arrayBuffer());
}
