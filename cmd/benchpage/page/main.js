// The screens and the way among them.
'use strict';

const main = (() => {
  const { el, put, button } = dom;
  const screens = { read, seen, marks, sheet, job: jobs };
  const names = { read: 'Read', seen: 'Seen', marks: 'Marks', sheet: 'Sheet', job: 'Job' };
  const node = (id) => document.getElementById(id);
  let now = 'job';
  const wide = matchMedia('(min-width: 1000px)');

  function tabs() {
    put(node('tabs'), Object.entries(names).map(([name, words]) => button(words, () => go(name), { id: `tab-${name}`, class: 'tab' })));
  }

  function go(name) {
    if (name) now = name;
    if (name === 'read') read.clear();
    redraw();
  }

  // redraw shows the screen that is chosen as things stand, not while a finger is on it.
  function redraw() {
    if (hands.waits(redraw)) return;
    const agreed = cautions.read();
    node('tabs').hidden = !agreed;
    for (const name of Object.keys(names)) {
      const tab = node(`tab-${name}`);
      tab.toggleAttribute('disabled', name !== 'job' && !bench.at.job);
      if (name === now) tab.setAttribute('aria-current', 'page'); else tab.removeAttribute('aria-current');
    }
    node('title').textContent = bench.at.job ? bench.at.job.title : 'evendrop';
    const screen = node('screen');
    screen.className = agreed ? `of-${now}` : 'of-cautions';
    hands.awake(agreed && now === 'read');
    kept();
    const at = document.activeElement && document.activeElement.id;
    show(screen, agreed);
    if (at && document.activeElement.id !== at && !ask.open) node(at)?.focus({ preventScroll: true });
  }

  function show(screen, agreed) {
    if (!agreed) cautions.show(screen);
    else if (bench.at.core === 'failed') failed(screen);
    else if (bench.at.kept === 'elsewhere' && now !== 'job') elsewhere(screen);
    else screens[now].show(screen);
  }

  const failed = (screen) => put(screen, el('div', { class: 'pane' }, el('h2', { text: 'It does not start here' }),
    el('p', { class: 'warning', text: `This browser cannot run the program in this page: ${bench.at.why}. It needs Chrome 80, Firefox 113 or Safari 16.4, or one newer.` })));

  const elsewhere = (screen) => put(screen, el('div', { class: 'agree' }, el('div', { class: 'pane' },
    el('h2', { text: 'Open elsewhere' }), el('p', { text: 'This job is open in another tab or window. Only one of them can write it.' })),
  el('div', { class: 'foot row' }, button('The jobs', () => go('job')), button('Take it over here', () => bench.sit(bench.at.id, true), { id: 'take-over', class: 'go' }))));

  // kept says whether what was typed is on the disk.
  function kept() {
    const { kept: how, why, waiting, job, weak } = bench.at;
    const words = {
      keeping: 'Keeping', kept: '✓ Kept on this device', waiting: `✓ ${waiting} kept as typed, starting`,
      refused: `NOT KEPT: ${why}. Export before you close this page.`, elsewhere: 'Open elsewhere',
    };
    const label = node('kept');
    label.textContent = job ? words[how] || (bench.at.core === 'starting' ? 'Starting' : '') : (bench.at.core === 'starting' ? 'Starting' : '');
    label.className = `kept ${how}`;
    node('export-now').hidden = !(job && how === 'refused');
    node('top').classList.toggle('loud', Boolean(job) && how === 'refused');
    label.title = weak ? 'This browser may drop it some day: export the job.' : '';
  }

  async function exportNow() {
    const wrong = await bench.exported();
    if (wrong) ask.said('It was not exported', [{ kind: 'remark', parts: [wrong] }]);
  }

  // exported says what went out: under Job in its place there, elsewhere in a window.
  function exported(text) {
    hands.aloud(text);
    if (now === 'job') redraw(); else ask.said('Exported', [{ kind: 'remark', parts: [text] }]);
  }

  // told is what the bench tells of.
  function told(what) {
    if (what === 'kept') return kept();
    if (what === 'history') return now === 'read' && bench.at.state ? read.band() : undefined;
    if (what === 'keptnow') {
      hands.felt();
      const says = (bench.at.said.find((s) => s.kind === 'answer') || { parts: [''] }).parts[0];
      return hands.aloud([says.startsWith('Kept') ? '' : 'Kept.', says, bench.at.state.question?.text].filter(Boolean).join(' '));
    }
    if (what === 'exported') return exported(bench.at.exported);
    if (what === 'said') return said();
    if (what === 'state') {
      read.asked();
      if (bench.open()) bench.history(12);
    }
    redraw();
    if (what === 'state') asks();
    return undefined;
  }

  function asks() {
    if (bench.at.state && bench.at.state.asks) ask.asked(bench.at.state.asks);
  }

  // said is what was said to the last line: beside the keypad, or else in a window.
  function said() {
    const list = bench.at.said;
    const remarks = list.filter((s) => s.kind !== 'answer');
    if (remarks.length) hands.aloud(remarks.flatMap((s) => s.parts).join(' '));
    if (now === 'read' || bench.at.state?.asks) {
      read.said(list);
      if (now === 'read') redraw();
    } else if (list.length) {
      ask.said('Said', list);
    }
  }

  function key(e) {
    if (ask.open || !cautions.read() || e.defaultPrevented) return;
    if (now === 'read' && read.key(e)) e.preventDefault();
    else if (e.key === '?' && e.target.tagName !== 'INPUT') {
      e.preventDefault();
      ask.said('Keys', [{ kind: 'lines', parts: ['digits, Enter    angle, then depth, then keep', '+ or f           turned forward', '/ or b           turned back', 'b, a             after an angle: before, after TDC', 'u                undo', 'Tab, Space       every button'] }]);
    }
  }

  async function begin() {
    tabs();
    bench.watch(told);
    hands.onVoices(() => now === 'read' && redraw());
    node('export-now').addEventListener('click', exportNow);
    document.addEventListener('keydown', key);
    wide.addEventListener('change', redraw);
    document.addEventListener('dblclick', (e) => e.preventDefault());
    redraw();
    const started = bench.start();
    const last = bench.last();
    if (last && cautions.read()) {
      now = 'read';
      await bench.sit(last).catch(() => { now = 'job'; });
    }
    await started;
    redraw();
  }

  return { begin, go, redraw, exportNow, at: () => now, wide: () => wide.matches };
})();

main.begin();
