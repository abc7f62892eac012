// The road to the core: one function that takes a request and answers with a response, both
// as cmd/internal/bench/border.go has them. It makes no sum and no sentence of its own.
'use strict';

const core = (() => {
  let program;          // the compiled WebAssembly
  let starting;         // a promise of the core that is starting or has started
  let ended = true;     // the Go program has ended, or was never started
  let listener = () => {};

  // packed is the program as it stands in the page, or beside it.
  async function packed() {
    const text = document.getElementById('core').textContent;
    const binary = atob(text.trim());
    const bytes = new Uint8Array(binary.length);
    for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
    return bytes;
  }

  async function compile() {
    if (program) return program;
    const stream = new Blob([await packed()]).stream().pipeThrough(new DecompressionStream('gzip'));
    program = await WebAssembly.compile(await new Response(stream).arrayBuffer());
    document.getElementById('core').textContent = ''; // it is compiled, and large
    return program;
  }

  async function start() {
    const go = new Go();
    const instance = await WebAssembly.instantiate(await compile(), go.importObject);
    ended = false;
    go.run(instance).then(() => { ended = true; starting = undefined; listener(); }); // it sets globalThis.evendrop before it waits
  }

  // ready is there once the core can be asked; it starts it where it has ended.
  function ready() {
    if (!starting || ended && starting.settled) {
      starting = start();
      starting.then(() => { starting.settled = true; }, () => { starting = undefined; });
    }
    return starting;
  }

  // ask gives the core a request. A core that broke down answers {panic}; the job is then
  // opened again with the files that are kept.
  async function ask(request) {
    await ready();
    try {
      return JSON.parse(globalThis.evendrop(JSON.stringify(request)));
    } catch (broke) {
      ended = true;
      starting = undefined;
      return { panic: String(broke), revision: 0 };
    }
  }

  return { ready, ask, onEnd(f) { listener = f; } };
})();
