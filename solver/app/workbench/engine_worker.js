// The worker: holds the engine, answers one message at a time. Its text is joined with the engine's loader.
"use strict";
const scope = /** @type {any} */ (self);
/** @type {Promise<any>} */
let engineReady;

scope.onmessage = async (/** @type {MessageEvent} */ event) => {
  const { id, module, args, files } = event.data;
  if (module) {
    engineReady = scope.createBarwright({
      instantiateWasm(/** @type {any} */ imports, /** @type {any} */ done) {
        WebAssembly.instantiate(module, imports).then((instance) => done(instance, module));
        return {};
      },
    });
    engineReady.then(
      () => scope.postMessage({ ready: true }),
      (fault) => scope.postMessage({ broken: String(fault) }),
    );
    return;
  }
  try {
    const engine = await engineReady;
    const request = JSON.stringify({ args, files });
    const size = engine.lengthBytesUTF8(request) + 1;
    const at = engine._malloc(size);
    if (!at) throw new Error("no memory");
    engine.stringToUTF8(request, at, size);
    const reply = engine.UTF8ToString(engine._barwright_run(at));
    engine._free(at);
    scope.postMessage({ id, ...JSON.parse(reply) });
  } catch (fault) {
    scope.postMessage({ id, broken: String(fault) });
  }
};
