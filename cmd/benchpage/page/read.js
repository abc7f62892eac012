// Reading: where TDC is, where to read next, and the keypad.
'use strict';

const read = (() => {
  const { el, put, button, draw, icon } = dom;
  let fields, pad, padOf = '', root, parts, fixing = 0, later = '', openQuestion = true, remark = null, passing = false, asking = 0;

  // build makes the screen for the scale of the job.
  function build(screen) {
    const { job } = bench.at;
    const of = JSON.stringify([bench.at.id, job.scale.keys, job.unit]);
    if (root && padOf === of && root.isConnected) return;
    const was = padOf === of && fields ? fields.map((f) => f.value) : [];
    padOf = of;
    fields = [keypad.field('angle', 'Angle', 'angle'), keypad.field('depth', 'Depth', 'length')];
    was.forEach((v, i) => { fields[i].value = v; });
    parts = {
      tdc: el('section', { class: 'tdc', 'aria-label': 'True TDC' }), talk: el('section', { class: 'talk', 'aria-label': 'Next' }),
      turns: el('div', { class: 'turns', role: 'group', 'aria-label': 'The crank is turned' }), answers: el('div', { class: 'answers two' }), side: el('aside', { class: 'beside' }),
    };
    for (const turn of ['forward', 'backward']) {
      parts[turn] = button([icon(turn), el('span', {}, turn === 'forward' ? 'Forward' : 'Back', el('span', { class: 'wanted' }))], () => turnTo(turn), { id: turn });
      parts.turns.append(parts[turn]);
    }
    const undo = button([icon('undo'), 'Undo'], undoing, { class: 'key quiet', id: 'undo' });
    pad = keypad.make({ fields, scale: job.scale.keys, done: keep, last: () => (fixing ? `Fix ${fixing}` : 'Keep'), changed: typed, extra: undo });
    pad.pad.querySelector('.go').id = 'keep';
    root = el('div', { class: 'read' }, el('div', { class: 'work' }, parts.tdc, parts.talk, parts.turns, el('div', { class: 'fields' }, fields.map((f) => f.box)), pad.pad, parts.answers), parts.side);
    put(screen, root);
  }

  function show(screen) {
    const { job, state } = bench.at;
    if (!job || !state) return put(screen, el('div', { class: 'pane' }, el('p', { class: 'quiet', text: 'Opening.' })));
    build(screen);
    label(fields[1].hint.textContent);
    fields[0].box.querySelector('label').textContent = 'Angle, deg';
    pad.show();
    standing();
    talk();
    for (const turn of ['forward', 'backward']) {
      parts[turn].setAttribute('aria-pressed', String((later || state.turn) === turn));
      parts[turn].querySelector('.wanted').textContent = state.next && state.next.turn === turn && (later || state.turn) !== turn ? 'next place' : '';
    }
    beside();
    typed();
    return undefined;
  }

  // standing is TDC and how sure it is.
  function standing() {
    const { tdc, standing: says, lobe, cylinder } = bench.at.state;
    const whose = bench.at.job.cylinders.length > 1 ? `Cylinder ${cylinder}: true TDC` : 'True TDC';
    if (!tdc || !tdc.sure) {
      return put(parts.tdc, el('div', { class: 'number' }, el('h2', { text: whose }), el('p', { class: 'says', tabindex: 0, text: says[0] || '' })));
    }
    return put(parts.tdc, el('div', { class: 'number' }, el('h2', { text: lobe ? `${whose}; lifts of ${lobe}` : `${whose} on the protractor` }),
      el('p', { class: tdc.at.length > 6 ? 'big sided' : 'big' }, el('b', { text: tdc.at }), el('span', { text: `± ${tdc.within} deg` })),
      el('p', { class: 'small', text: tdc.readings > 1 ? `${tdc.readings} readings agree to ±${tdc.agree_to}` : '' })), band());
  }

  // band is how the interval shrank, reading by reading.
  function band() {
    const { history, state } = bench.at;
    const points = history ? history.points.slice(-12).filter((p) => p.sure) : [];
    if (points.length < 2 || !state.tdc) return '';
    const wide = 108, high = 60, step = wide / 12;
    const reach = Math.max(...points.map((p) => Math.abs(p.at_deg) + p.half_deg));
    const y = (deg) => high / 2 - deg / reach * (high / 2 - 3);
    const x = (i) => wide - (points.length - i - 0.5) * step;
    return draw('svg', { class: 'shrinks', viewBox: `0 0 ${wide} ${high}`, role: 'img', 'aria-label': `From ${points[0].text} to ${points[points.length - 1].text}` },
      draw('path', { class: 'level', d: `M${x(0) - step / 2} ${y(0)}H${wide}` }),
      points.map((p, i) => draw('rect', { class: i === points.length - 1 ? 'now' : 'was', x: x(i) - step * 0.36, width: step * 0.72, y: y(p.at_deg + p.half_deg), height: Math.max(2, y(-p.half_deg) - y(p.half_deg)) })),
      points.map((p, i) => draw('path', { class: 'mid', d: `M${x(i) - step * 0.36} ${y(p.at_deg)}h${step * 0.72}` })));
  }

  // talk is one thing at a time: a question, a remark, or the next place.
  function talk() {
    const { question, next } = bench.at.state;
    const asks = question && openQuestion;
    root.classList.toggle('asking', Boolean(asks));
    put(parts.answers);
    if (asks) return questioned(question);
    if (fixing) return panel('fix', [el('p', { text: `Reading ${fixing} as it should be. Its turn and note stay.` })], [['Leave it', unfix]]);
    if (remark) return panel('remark', ask.saidNodes(remark), [['OK', () => { remark = null; main.redraw(); }]]);
    if (question) return panel('open', [el('p', { text: question.text })], [['Answer', () => { openQuestion = true; main.redraw(); }]]);
    return bench.at.state.lobe ? ofLobe() : place(next);
  }

  // ofLobe is how far a lobe is read, where the piston's next place would be.
  function ofLobe() {
    const { lifts, lobe, standing: says } = bench.at.state;
    const said = bench.at.said.filter((s) => s.kind === 'answer').flatMap((s) => s.parts);
    return panel('quiet lobe', dom.paragraphs([`${lobe}: ${lifts.length} ${lifts.length === 1 ? 'lift' : 'lifts'}.`, ...(said.length ? said : says.slice(1))]), []);
  }

  function panel(kind, texts, buttons) {
    put(parts.talk, el('div', { class: `panel ${kind}` }, el('div', { class: 'words', tabindex: 0 }, texts), buttons.map(([words, act]) => button(words, act, { class: 'plain' }))));
  }

  function questioned(q) {
    const { undo } = bench.at.state;
    put(parts.talk, el('div', { class: 'panel question' }, el('div', { class: 'words', id: 'question', tabindex: 0 }, el('p', { text: q.text }))));
    document.getElementById('question').focus({ preventScroll: true }); // no answer by a second Enter
    put(parts.answers, q.answers.map((a) => button(a.shows, () => answer(a.line), { class: 'answer', 'data-line': a.line })),
      undo ? button(['Take back ', el('small', { text: undo.says })], () => answer(undo.line), { class: 'answer', 'data-line': 'undo' }) : '',
      button('Read on, answer later', () => { openQuestion = false; main.redraw(); }, { class: 'answer', 'data-line': 'later' }));
  }

  const answer = (line) => { remark = null; return bench.type(line); };

  // place is where to read next.
  function place(next) {
    if (!next) return panel('quiet', dom.paragraphs(bench.at.state.standing.slice(1)), []);
    const whole = button([icon(next.turn), next.side ? summary(next) : el('span', { class: 'says', text: next.text })], told, { id: 'next', class: 'place' });
    put(parts.talk, el('div', { class: 'panel next' }, whole, hands.speaks() ? button(icon('speak'), () => hands.speak(next.spoken), { id: 'speak', class: 'icon-only', 'aria-label': 'Say it aloud' }) : ''));
  }

  // told is what stands about the next place in full; of one that is no reading with what
  // may be typed in its place.
  const told = () => ask.choose('Next', [...bench.at.state.standing, ...bench.at.state.warnings],
    [...(bench.at.state.next.side ? [] : seen.forms(bench.at.job).slice(0, 3)), ['OK', null, 'go']]);

  const summary = (next) => el('span', { class: 'says' },
    el('b', { text: next.angle ? `${next.angle} → ${next.gauge}` : `about ${next.drop} down` }),
    el('small', { text: [`${next.side} side`, `turn ${next.turn}`, next.angle && next.drop ? `${next.drop} down` : '', next.then ? `then ±${next.then}` : '', next.enough ? 'more hardly helps' : ''].filter(Boolean).join(' · ') }));

  // beside is what a desk has room for.
  function beside() {
    if (!main.wide()) return put(parts.side);
    if (!parts.picture) {
      parts.picture = el('div', { class: 'curve' });
      parts.list = el('div', { class: 'list' });
    }
    const { standing: says, warnings } = bench.at.state;
    const top = parts.list.scrollTop;
    put(parts.side, el('div', {}, parts.picture, el('div', { class: 'words' }, dom.paragraphs(says)), warnings.length ? el('ul', { class: 'warning' }, warnings.map((text) => el('li', { text }))) : ''), parts.list);
    seen.list(parts.list);
    parts.list.scrollTop = top;
    return curve();
  }

  async function curve() {
    const mine = ++asking;
    await new Promise((go) => setTimeout(go, 120));
    if (mine !== asking || !bench.open() || !bench.at.state.tdc) return;
    const r = await bench.ask({ action: 'picture', name: 'curve', n: Math.max(0, bench.at.job.cylinders.findIndex((c) => c.number === bench.at.state.cylinder)) });
    if (mine === asking && r.picture) put(parts.picture, dom.picture(r.picture));
  }

  // turnTo turns; what is said to that has been read when the next digit is typed.
  async function turnTo(turn) {
    later = turn;
    main.redraw();
    await bench.type(turn);
    later = '';
    passing = Boolean(remark);
    main.redraw();
  }

  // typed asks what the gauge should show at the angle that is typed.
  let typing = 0;
  function typed(field) {
    const mine = ++typing;
    const angle = fields[0].value;
    if (field && passing) {
      remark = null;
      passing = false;
      talk();
    }
    if (!angle || !bench.open() || bench.at.state.lobe) return hint({});
    return setTimeout(async () => {
      if (mine !== typing) return;
      const r = await bench.ask({ action: 'expect', line: angle, turn: later || bench.at.state.turn });
      if (mine === typing) hint(r.expected || {});
    }, 90);
  }

  function hint({ gauge, side, says }) {
    fields[0].hint.textContent = side ? `${side} side` : '';
    fields[1].hint.textContent = gauge ? `near ${gauge}` : '';
    label(gauge);
    fields[0].box.classList.toggle('wrong', Boolean(says));
    fields[0].input.setAttribute('aria-invalid', String(Boolean(says)));
    if (says) fields[0].hint.textContent = 'not on this scale';
    fields[0].input.title = says || '';
  }

  // label names the second field, with the unit where no hint has it.
  function label(gauge) {
    const { state, job } = bench.at;
    fields[1].box.querySelector('label').textContent = (state.lobe ? 'Lift' : 'Depth') + (gauge ? '' : `, ${job.unit}`);
  }

  // keep types the reading; what was typed goes only once it was taken.
  async function keep() {
    const [angle, depth] = fields.map((f) => f.value);
    const turn = (later || bench.at.state.turn)[0];
    const before = fixing ? `fix ${fixing}` : turn; // a reading that is fixed stays as it was turned
    const waits = !bench.open();
    const was = bench.at.state;
    remark = null;
    pad.clear();
    const done = await bench.type(`${before} ${angle} ${depth}`);
    if (done.kept || waits || (bench.at.state !== was && bench.at.state.question)) {
      fixing = 0;
    } else if (!fields[0].value && !fields[1].value) {
      fields[0].value = angle;
      fields[1].value = depth;
      pad.focus(fields[1]);
    }
    main.redraw();
  }

  function fix(reading) {
    const start = `fix ${reading.number} ${reading.turn[0]} ${reading.angle} `;
    main.go('read');
    fixing = reading.number;
    fields[0].value = reading.angle;
    fields[1].value = reading.fix.startsWith(start) ? reading.fix.slice(start.length) : '';
    main.redraw();
    pad.focus(fields[1]);
  }

  function unfix() {
    fixing = 0;
    pad.clear();
    main.redraw();
  }

  function undoing() {
    const { undo, redo } = bench.at.state;
    ask.choose('Undo', [undo ? `Done last: ${undo.says}` : 'Nothing is left to take back.', ...(redo ? [`Taken back last: ${redo.says}`] : [])],
      [['Leave it'], ...(undo ? [['Take it back', () => bench.type(undo.line), 'go']] : []), ...(redo ? [['Do it again', () => bench.type(redo.line)]] : [])]);
  }

  function said(list) {
    const news = list.flatMap((s) => s.news || []);
    const remarks = [...list.filter((s) => s.kind !== 'answer'), ...(news.length ? [{ kind: 'remark', parts: news }] : [])];
    if (remarks.length) remark = remarks;
    passing = false;
  }

  function key(e) {
    if (!root || !root.isConnected) return false;
    if (root.classList.contains('asking')) return false;
    if (e.target.tagName === 'BUTTON' && e.key === 'Enter') return false;
    if (pad.key(e)) return true;
    if (e.ctrlKey || e.metaKey || e.altKey) return false;
    if (e.key === '+' || e.key === 'f') { turnTo('forward'); return true; }
    if (e.key === '/' || e.key === 'b') { turnTo('backward'); return true; }
    if (e.key === 'u') { undoing(); return true; }
    return false;
  }

  return { show, fix, said, key, band() { if (parts && root.isConnected) standing(); }, asked() { openQuestion = true; }, clear() { remark = null; fixing = 0; }, keys: () => pad };
})();
