// The jobs of this device: begun here, brought in, taken away.
'use strict';

const jobs = (() => {
  const { el, put, button } = dom;
  let lines = null;       // of begin, while it asks
  let interview = null;

  async function show(screen) {
    if (interview) return questions(screen);
    let list = [];
    let why = '';
    try { list = await store.jobs(); } catch (broke) { why = String(broke.message || broke); }
    await hands.lifted();
    if (main.at() !== 'job' || interview) return undefined;
    return put(screen, el('div', { class: 'pane job' },
      el('section', { 'aria-label': 'This job' }, bench.at.job ? ofThis() : welcome()),
      el('section', {}, el('h2', { text: 'Jobs on this device' }), why ? nothingKept(why) : listOf(list), doors())));
  }

  const welcome = () => [
    el('h2', { text: 'True TDC, at the engine' }),
    el('p', { text: 'Begin a job, or open one that the program evendrop made.' })];

  const nothingKept = (why) => el('p', { class: 'warning', text: `This browser keeps nothing for this page (${why}). A job that you begin here is lost when the page is closed: export it before.` });

  const doors = () => el('div', { class: 'doors' },
    button('New job', () => begin(), { id: 'new', class: 'go' }),
    button('Open a zip or files', () => filed.pick(take), { id: 'open' }));

  const listOf = (list) => (list.length ? el('ul', { class: 'jobs' }, list.map((j) => {
    const here = j.id === bench.at.id;
    return el('li', {}, button([el('span', { class: 'name', text: j.title }), el('span', { class: 'quiet', text: here ? 'open now' : new Date(j.at).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' }) })],
      () => open(j.id), { class: here ? 'row here' : 'row', 'aria-current': here ? 'true' : undefined }),
    button('Remove', () => remove(j), { class: 'plain', 'aria-label': `Remove ${j.title}` }));
  })) : el('p', { class: 'quiet', text: 'None yet.' }));

  async function open(id) {
    main.go('read');
    if (id === bench.at.id && bench.open()) return;
    try {
      await bench.sit(id);
    } catch (why) {
      ask.said('It was not opened', [{ kind: 'remark', parts: [String(why.message || why)] }]);
    }
  }

  const remove = (j) => ask.choose('Remove this job from this device?', [j.title, 'It is gone then, unless it was exported.'],
    [['Keep it'], ['Remove it', async () => { await bench.forget(j.id); main.redraw(); }]]);

  // ofThis is what is to be known of the job that is open, and what can be done with it.
  function ofThis() {
    const { job, state, kept } = bench.at;
    const compares = marks.compares();
    if (kept === 'elsewhere') {
      return [el('h2', { text: job.title }), el('p', { text: 'This job is open in another tab or window. Only one of them can write it.' }),
        el('div', { class: 'doors' }, button('Take it over here', () => bench.sit(bench.at.id, true)))];
    }
    return [
      el('h2', { text: job.title }),
      el('div', { class: 'doors' },
        button(matchMedia('(pointer: coarse)').matches && navigator.canShare ? 'Export or share as a zip' : 'Export as a zip', main.exportNow, { id: 'export', class: bench.at.weak ? 'go' : '' }),
        button('The whole answer', details, { id: 'details' }),
        button('Cautions', cautions.again)),
      bench.at.exported ? el('p', { id: 'exported', text: bench.at.exported }) : '',
      bench.at.weak ? el('p', { class: 'warning', text: 'This browser may drop what it keeps when it is short of room or the page is not opened for some days. Export the job when you leave the engine.' }) : '',
      job.cylinders.length > 1 || job.lobes.length ? el('div', { class: 'choices', role: 'group', 'aria-label': 'What is read' },
        job.cylinders.map((c) => button([`Cylinder ${c.number}`, el('small', { text: `${c.readings} read${c.others ? `, ${c.others}` : ''}` })],
          () => choose(c.line), { 'aria-pressed': String(c.number === state.cylinder && !state.lobe) })),
        job.lobes.map((name) => button([name, el('small', { text: 'lobe' })], () => choose(`lobe ${name}`), { 'aria-pressed': String(name === state.lobe) }))) : '',
      compares.length ? el('div', { class: 'doors' }, compares) : '',
      el('dl', { class: 'facts' }, job.instruments.map((line) => fact(line))),
      job.drives.length ? el('div', { class: 'doors' }, button(['How the cams are driven', el('small', { text: job.driven || 'not said' })], driven, { id: 'driven' })) : '',
      bench.at.program ? el('p', { class: 'quiet', text: bench.at.program.version }) : ''];
  }

  // fact parts a line at its first colon, for the eye.
  function fact(line) {
    const i = line.indexOf(': ');
    return el('div', {}, el('dt', { text: line.slice(0, i) }), el('dd', { text: line.slice(i + 2) }));
  }

  // driven asks how the cams are driven, which may have been answered wrongly before.
  function driven() {
    const { drives, driven: now } = bench.at.job;
    ask.choose('How are the cams driven?', [now ? `The job says: ${now}. Lobes and marks go to the cams that there are then.` : 'The job does not say it yet.'],
      [...drives.map((d) => [d.shows, () => bench.type(d.line)]), ['Leave it']]);
  }

  async function choose(line) {
    if (bench.at.state.lobe && /^cylinder/.test(line)) await bench.type('piston');
    await bench.type(line);
    main.go('read');
  }

  // take opens what was picked; of several job files it asks which.
  async function take(list, jobFile) {
    if (!list.length) return undefined;
    const toml = list.filter((f) => /\.toml$/i.test(f.name));
    if (!jobFile && !list.some(filed.isZip) && toml.length && !toml.some((f) => f.name === 'job.toml')) {
      if (toml.length === 1) return take(list, toml[0].name);
      return ask.choose('Which is the job?', ['Several of these files may be the job file.'], toml.map((f) => [f.name, () => take(list, f.name)]));
    }
    const wrong = await bench.bring(list, jobFile);
    if (wrong) return ask.said('It was not opened', [{ kind: 'remark', parts: [wrong] }]);
    return main.go('read');
  }

  async function begin() {
    lines = [];
    put(document.getElementById('screen'), el('div', { class: 'pane' }, el('p', { class: 'quiet', text: 'Starting.' })));
    await next();
  }

  // next asks the next question of begin, once the answers so far are taken.
  async function next(line) {
    const tried = line === undefined ? lines : [...lines, line];
    const r = await bench.begin(tried);
    if (!r.interview) return ask.said('It was not begun', [{ kind: 'remark', parts: [r.error || r.panic] }]);
    interview = r.interview;
    if (r.interview.taken || line === 'back') lines = tried;
    if (r.interview.done || r.interview.left) {
      interview = null;
      if (!r.interview.done) return main.redraw();
      main.go('read');
      bench.at.toRead = { id: bench.at.id, marks: r.interview.buttons };
      const orders = (bench.at.said || []).filter((s) => s.kind !== 'answer');
      if (orders.length) ask.said('The job is made', orders);
      return undefined;
    }
    return main.redraw();
  }

  function questions(screen) {
    const i = interview;
    const input = el('input', { id: 'answer', type: 'text', autocomplete: 'off', 'aria-label': 'Answer' });
    const chosen = new Set();
    const send = () => next(chosen.size ? [...chosen].sort((a, b) => a - b).join(', ') : input.value.trim());
    input.addEventListener('keydown', (e) => { if (e.key === 'Enter') { e.preventDefault(); send(); } });
    const pick = (n, b) => {
      if (chosen.has(n)) chosen.delete(n); else chosen.add(n);
      b.setAttribute('aria-pressed', String(chosen.has(n)));
    };
    put(screen, el('div', { class: 'agree' },
      el('div', { class: 'pane ask-pane' },
        i.reply ? el('p', { class: i.taken ? 'quiet' : 'warning', text: i.reply }) : '',
        i.drawing ? dom.lines(i.drawing) : '',
        i.text.split('\n').map((text) => el('p', { class: 'question', text })),
        i.choices.length ? el('div', { class: 'choices' }, i.choices.map((c, n) => {
          const b = button(`${n + 1}  ${c}`, () => pick(n + 1, b), { 'aria-pressed': 'false' });
          return b;
        })) : '',
        i.buttons.length ? el('div', { class: 'choices' }, i.buttons.map((b) => button(b.shows, () => next(b.line)))) : '',
        el('div', { class: 'field text' }, el('label', { for: 'answer', text: i.choices.length || i.buttons.length ? 'Or type it' : 'Type it' }), input)),
      el('div', { class: 'foot row' },
        i.number ? button('Back', () => next('back'), { id: 'back' }) : button('Leave', () => { interview = null; lines = null; main.redraw(); }, { id: 'back' }),
        button('?', () => next('?'), { id: 'explain', 'aria-label': 'What is meant?' }),
        i.usual ? button((i.buttons.find((b) => b.line === i.usual) || { shows: i.usual }).shows, () => next(''), { id: 'usual', class: 'usual' }) : '',
        button('OK', send, { id: 'ok', class: 'go' }))));
    if (main.wide() || !i.choices.length && !i.buttons.length) input.focus({ preventScroll: true }); // it brings up a phone's keyboard
  }

  // details is the whole answer, block by block.
  async function details() {
    const r = await bench.ask({ action: 'details' });
    ask.show('The whole answer', (end) => el('div', { class: 'window' },
      el('div', { class: 'words document' }, r.document ? r.document.map(block) : el('p', { class: 'warning', text: r.error || r.panic })),
      el('div', { class: 'answers' }, button('OK', end, { class: 'go' }))));
  }

  // of is what a cell of a table has: numbers stand under one another by their ends, words by
  // their beginnings.
  const of = (text) => (/^[-+−±.\d]/.test(text) ? 'number' : 'word');

  function block(b) {
    switch (b.kind) {
      case 'heading': return el(`h${Math.min(6, b.level + 2)}`, { text: b.text });
      case 'paragraph': return el('p', { class: b.role, text: b.text });
      case 'list': return el(b.ordered ? 'ol' : 'ul', { class: b.role }, b.items.map((text) => el('li', { text })));
      case 'lines': return dom.lines(b.text);
      case 'facts': return el('dl', { class: 'facts' }, b.rows.map(([what, is]) => el('div', {}, el('dt', { text: what }), el('dd', { text: is }))));
      case 'figure': return el('figure', {}, dom.picture(b.svg), el('figcaption', { text: b.text }));
      case 'table': return el('div', { class: 'scroll', tabindex: 0 }, el('table', {}, el('caption', { text: b.text }), el('thead', {}, el('tr', {}, b.header.map((text, n) => el('th', { scope: 'col', text, class: of(b.rows[0]?.[n]) })))),
        el('tbody', {}, b.rows.map((row, n) => el('tr', { class: b.states && b.states[n] }, row.map((text) => el('td', { text, class: of(text) })))))));
      default: return '';
    }
  }

  return { show };
})();
