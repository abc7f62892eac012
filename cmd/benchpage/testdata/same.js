// Gives the core as WebAssembly the requests of a file, a JSON array of arrays of
// {request, response}, each array a core's from its start, and says where a response differs:
// a text by a letter, a number by more than 1e-12 of it. Where TDC's interval is that of a
// mixture, its ends are sought until a probability is right to 1e-7 (fit/gum/mixture.go), and
// the last digit of a sum may end that search a step sooner: such numbers are counted, and
// have to agree to 1e-6.
'use strict';

const fs = require('fs');
globalThis.require = require;
globalThis.fs = fs;
globalThis.path = require('path');
const [wasm, runner, exchanges] = process.argv.slice(2);
require(runner);

let sought = 0; // numbers that agree to 1e-6 only

function differ(want, got, at) {
  if (typeof want === 'number' && typeof got === 'number') {
    const apart = Math.abs(want - got) / Math.max(1, Math.abs(want));
    if (apart <= 1e-12) return [];
    if (/[.](half_deg|at_deg|agree_deg)$/.test(at) && apart <= 1e-6) {
      sought++;
      return [];
    }
    return [`${at}: ${want} and ${got}`];
  }
  if (want === null || got === null || typeof want !== 'object' || typeof got !== 'object') {
    return want === got ? [] : [`${at}: ${String(want).slice(0, 200)} and ${String(got).slice(0, 200)}`];
  }
  const names = new Set([...Object.keys(want), ...Object.keys(got)]);
  return [...names].flatMap((name) => differ(want[name], got[name], `${at}.${name}`));
}

(async () => {
  const program = await WebAssembly.compile(fs.readFileSync(wasm));
  let compared = 0, largest = 0;
  const found = [];
  const go = new Go();
  const instance = await WebAssembly.instantiate(program, go.importObject);
  go.run(instance);
  const times = {};
  for (const [n, exchange] of JSON.parse(fs.readFileSync(exchanges, 'utf8')).entries()) {
    for (const { request, response } of exchange) {
      const began = performance.now();
      const got = JSON.parse(globalThis.evendrop(JSON.stringify(request)));
      (times[request.action] ??= []).push(performance.now() - began);
      delete got.revision;
      delete response.revision;
      found.push(...differ(response, got, `${n} ${request.action}`));
      compared++;
      largest = Math.max(largest, instance.exports.mem.buffer.byteLength);
    }
  }
  const medians = Object.entries(times).map(([action, all]) => `${action} ${all.sort((a, b) => a - b)[all.length >> 1].toFixed(1)}`);
  console.log(`${compared} responses compared, ${found.length} differences, ${sought} ends of a mixture that agree to 1e-6 only, ${(largest / 1e6).toFixed(1)} MB of memory; medians in ms: ${medians.join(', ')}`);
  found.slice(0, 10).forEach((line) => console.log(line));
  process.exit(found.length > 0 || sought > 5 ? 1 : 0); // one was met in 200 jobs
})();
