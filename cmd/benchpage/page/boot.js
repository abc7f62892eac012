// The road to the core: one function that takes a request and answers with a response, both
// as cmd/internal/bench/border.go has them. It makes no sum and no sentence of its own.
'use strict';

const core = (() => {
  let program;          // the compiled WebAssembly
  let starting;         // a promise of the core that is starting or has started; undefined of none
  let born = 0;         // how many were started: what an earlier one does at its end is nothing to a later

  // packed is the program as it stands in the page.
  function packed() {
    const from = document.getElementById('core');
    const bytes = new Uint8Array(Number(from.dataset.size));
    if (document.characterSet.toLowerCase() !== from.dataset.charset) {
      throw new Error('this page did not come whole (it was read as ' + document.characterSet + '): open the file itself, or put the site on its host again');
    }
    (from.dataset.charset === 'utf-8' ? unpackDense : unpackWide)(from.textContent, bytes);
    return bytes;
  }

  // unpackWide takes a byte a character (cmd/benchpage/wide.go).
  function unpackWide(text, bytes) {
    const byte = new Uint8Array(0x10000);
    const all = new TextDecoder('windows-1252').decode(Uint8Array.from({ length: 256 }, (_, i) => i));
    for (let i = 0; i < 256; i++) byte[all.charCodeAt(i)] = i;
    for (let i = 0, at = 0; i < text.length; i++) {
      const c = text.charCodeAt(i);
      bytes[at++] = c === 61 ? byte[text.charCodeAt(++i)] ^ 64 : byte[c];
    }
  }

  // unpackDense takes seven bits a character, and fourteen of one of two bytes
  // (cmd/benchpage/dense.go).
  function unpackDense(text, bytes) {
    const refused = [0, 10, 13, 60, 11, 12, 26, 27];
    let bits = 0, have = 0, at = 0;
    const put = (seven) => {
      bits = (bits << 7 | seven) & 0x7fff;
      have += 7;
      if (have >= 8) {
        have -= 8;
        bytes[at++] = bits >> have;
      }
    };
    for (let i = 0; i < text.length; i++) {
      const c = text.charCodeAt(i);
      if (c < 128) {
        put(c);
      } else {
        put(refused[c - 128 >> 7]);
        put(c & 127);
      }
    }
  }

  // read is there once the page has been read to its end, where the core stands.
  const read = new Promise((done) => {
    if (document.readyState === 'loading') document.addEventListener('DOMContentLoaded', done);
    else done();
  });

  async function compile() {
    if (program) return program;
    await read;
    const stream = new Blob([packed()]).stream().pipeThrough(new DecompressionStream('gzip'));
    program = await WebAssembly.compile(await new Response(stream).arrayBuffer());
    document.getElementById('core').textContent = ''; // it is compiled, and large
    return program;
  }

  async function start() {
    const mine = ++born;
    const go = new Go();
    const instance = await WebAssembly.instantiate(await compile(), go.importObject);
    go.run(instance).then(() => { if (mine === born) starting = undefined; }); // it sets globalThis.evendrop before it waits
  }

  // ready is there once the core can be asked; it starts it where it has ended. It fails
  // where the browser is too old to unpack it.
  function ready() {
    starting ??= start().catch((broke) => {
      starting = undefined;
      throw broke;
    });
    return starting;
  }

  // ask gives the core a request. A core that broke down answers {panic}; the job is then
  // opened again with the files that are kept.
  async function ask(request) {
    await ready();
    try {
      return JSON.parse(globalThis.evendrop(JSON.stringify(request)));
    } catch (broke) {
      starting = undefined;
      return { panic: String(broke), revision: 0 };
    }
  }

  return { ready, ask };
})();
