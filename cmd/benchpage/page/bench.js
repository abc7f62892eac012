// The job that is open: lines go to the core one after another, what they change is kept,
// and the screens are told. Where the core is not ready yet a line is kept first.
'use strict';

const bench = (() => {
  const at = {
    core: 'starting',   // starting, ready, failed
    program: null, cautions: null, help: '',
    id: '', job: null, state: null, said: [],
    kept: '',           // '', keeping, kept, waiting, refused, elsewhere
    why: '',            // of refused and elsewhere
    waiting: 0,         // lines that are kept and not obeyed yet
    weak: false,        // the device may drop what is kept
    history: null,
    exported: '',       // what went out, and where it is; '' once something changed
  };
  let revision = 0;
  let unsaved = new Map();   // files that are not kept, by name
  let chain = Promise.resolve();
  let watchers = [];

  const tell = (what) => watchers.forEach((f) => f(what));
  const inTurn = (work) => { chain = chain.then(work, work); return chain; };

  // start starts the core, with nothing open.
  async function start() {
    try {
      const r = await core.ask({ action: 'hello' });
      Object.assign(at, { core: 'ready', program: r.program, cautions: r.cautions, help: r.help });
    } catch (why) {
      Object.assign(at, { core: 'failed', why: String(why.message || why) });
    }
    tell('core');
  }

  // take takes over what a response says of the job.
  function take(r) {
    revision = r.revision;
    if (r.job) at.job = r.job;
    if (r.state) at.state = r.state;
    if (r.said) at.said = r.said;
    if (r.state) at.history = null;
  }

  // view is what is shown of a job before the core is ready, and how it is opened again.
  const view = () => ({
    title: at.job.title, file: at.job.file, at: Date.now(), cylinder: at.state.cylinder, lobe: at.state.lobe || '', turn: at.state.turn,
    shown: { job: at.job, state: at.state },
  });

  // save keeps what changed. The word kept is said only once it is on the disk.
  async function save(changed, typed) {
    for (const f of changed || []) unsaved.set(f.name, f);
    if (!unsaved.size && typed === undefined) return true;
    at.exported = '';
    at.kept = 'keeping';
    tell('kept');
    const files = [...unsaved.values()];
    try {
      await store.keep(at.id, hold.me, files, view(), typed);
    } catch (why) {
      refused(why);
      return false;
    }
    unsaved = new Map();
    at.kept = 'kept';
    at.why = '';
    tell('kept');
    return true;
  }

  function refused(why) {
    if (why.message === 'taken over') return elsewhere();
    at.kept = 'refused';
    at.why = why.name === 'QuotaExceededError' ? 'the storage of this device is full' : String(why.message || why);
    return tell('kept');
  }

  // ask asks about the job that is open; a core that lost it is given it again, once.
  async function ask(request, again) {
    const r = await core.ask({ revision, ...request });
    if ((r.panic || r.stale) && at.id) {
      const back = await recover();
      if (r.stale && back && !again) return ask(request, true);
      if (r.panic) failed({ error: back ? `The program failed and was started again, with the job as it was kept. This was not done: ${request.line || request.action}` : `The program failed: ${r.panic}. Export the job, and open this page again.` });
    }
    return r;
  }

  // recover opens the job again with its files as they are kept, and those that are not.
  async function recover() {
    let files = [];
    try { files = await store.files(at.id); } catch { /* nothing is kept on this device */ }
    const all = new Map([...files.map((f) => [f.name, f]), ...unsaved, ...(files.length ? [] : at.mine || [])]);
    return reopen([...all.values()], { file: at.job.file, ...view() });
  }

  // reopen opens files where a sitting on them stood.
  async function reopen(files, was) {
    const r = await core.ask({ action: 'open', files, name: was.file, cylinder: was.cylinder || 0 });
    if (r.error || r.panic) return failed(r);
    take(r);
    for (const line of [was.lobe ? `lobe ${was.lobe}` : '', was.turn && was.turn !== at.state.turn ? was.turn : '']) {
      if (!line) continue;
      const then = await core.ask({ action: 'type', revision, line });
      if (!then.error && !then.panic) take({ ...then, said: at.said });
    }
    return true;
  }

  function failed(r) {
    at.said = [{ kind: 'remark', parts: [r.error || r.panic] }];
    tell('said');
    return false;
  }

  // type obeys a line; its promise says whether something was kept of it.
  async function type(line) {
    if (at.kept === 'elsewhere') return { kept: false };
    if (at.core !== 'ready' || !revision) return keepForLater(line);
    return inTurn(() => obey(line));
  }

  async function keepForLater(line) {
    try {
      await store.later(at.id, line);
    } catch (why) {
      refused(why);
      return { kept: false };
    }
    at.waiting++;
    at.kept = 'waiting';
    tell('kept');
    return { kept: true };
  }

  async function obey(line, typed) {
    const r = await ask({ action: 'type', line });
    const changed = Boolean(r.changed && r.changed.length);
    if (r.panic) {
      if (typed !== undefined) await store.drop(typed); // it would do so again
      tell('state');
      return { kept: false };
    }
    if (r.error) r.said = [...(r.said || []), { kind: 'remark', parts: [r.error] }];
    if (r.state) take({ said: [], ...r });
    else at.said = r.said || [];
    // shown before the disk has it, but for the word kept
    tell('state');
    if (at.said.length) tell('said');
    const kept = await save(r.changed, typed);
    if (changed && kept) tell('keptnow');
    return { kept: changed, error: r.error };
  }

  // sit sits down to a job that is kept here; by force it is taken from another tab. What is
  // under way for the job before is done first.
  const sit = (id, force) => inTurn(async () => {
    const job = (await store.jobs()).find((j) => j.id === id);
    if (!job) return false;
    if (at.id !== id) Object.assign(at, { id, ...job.shown, mine: [], history: null, said: [], why: '', exported: '' });
    revision = 0;
    unsaved = new Map();
    remember(id);
    if (!await hold.take(id, force, elsewhere)) {
      elsewhere();
      return false;
    }
    lasting();
    at.kept = 'kept';
    at.waiting = (await store.waiting(id)).length;
    tell('state');
    await core.ready();
    const { job: was, files } = await store.claim(id, hold.me);
    if (!await reopen(files, was)) {
      refused(new Error(at.said[0].parts[0]));
      return false;
    }
    tell('state');
    await catchUp();
    return true;
  });

  // catchUp obeys the lines that were kept before the core was there.
  async function catchUp() {
    for (const { n, line } of await store.waiting(at.id)) {
      await obey(line, n);
      at.waiting--;
    }
    at.waiting = 0;
    tell('kept');
  }

  function elsewhere() {
    revision = 0;
    at.kept = 'elsewhere';
    tell('kept');
    tell('state');
  }

  // start a new one: of a zip, of files, or of begin's answers
  async function made(r, files) {
    const id = `${Date.now().toString(36)}-${hold.me.slice(0, 6)}`;
    take(r);
    Object.assign(at, { id, mine: files.map((f) => [f.name, f]), kept: 'keeping', why: '', waiting: 0, exported: '' });
    unsaved = new Map();
    remember(id);
    try {
      await hold.take(id, false, elsewhere);
      await store.add({ id, holder: hold.me, ...view() }, files);
      at.kept = 'kept';
    } catch (why) {
      unsaved = new Map(files.map((f) => [f.name, f]));
      refused(why);
    }
    lasting();
    tell('kept');
    tell('state');
    return '';
  }

  // bring opens a zip, or files, as a new job here; it is an error in words, or nothing.
  async function bring(list, jobFile) {
    const zips = list.filter(filed.isZip);
    return inTurn(async () => {
      const request = { action: 'open', name: jobFile };
      if (zips.length) request.zip = await filed.zip(zips[0]);
      else request.files = await Promise.all(list.map(filed.over));
      const r = await core.ask(request);
      if (r.error || r.panic) return r.error || r.panic;
      return made(r, zips.length ? r.changed : request.files);
    });
  }

  // attach puts files beside the job's; it is an error in words, or nothing.
  const attach = (files) => inTurn(async () => {
    const r = await ask({ action: 'attach', files });
    if (r.error || r.panic) return r.error || r.panic;
    take({ said: [], ...r });
    await save(r.changed);
    return '';
  });

  const begin = (lines) => inTurn(async () => {
    const r = await core.ask({ action: 'begin', lines });
    if (r.interview && r.interview.done) await made(r, r.changed);
    return r;
  });

  // lasting asks that what is kept stays, and notes where that is not sure.
  async function lasting() {
    try {
      at.weak = !(await navigator.storage.persisted() || await navigator.storage.persist());
    } catch {
      at.weak = true;
    }
    tell('kept');
  }

  function remember(id) {
    try { sessionStorage.setItem('evendrop-job', id); } catch { /* the list of jobs is shown first, then */ }
  }

  async function exported() {
    const r = await inTurn(() => ask({ action: 'export' }));
    if (!r.zip) return given(r.error || r.panic);
    const name = `${filed.named(at.job.title)}.zip`;
    wentOut(`${name}, with every file of this job`, await filed.give(name, 'application/zip', filed.bytesOf(r.zip)));
    return '';
  }

  function wentOut(what, where) {
    if (!where) return;
    at.exported = `Exported: ${what}. ${where}`;
    tell('exported');
  }

  // given hands over the files one by one, where there is no core that makes a zip of them.
  async function given(why) {
    const files = await store.files(at.id).catch(() => []);
    if (!files.length) return why;
    let where = '';
    for (const f of files) where = await filed.give(f.name.replace(/.*\//, ''), 'application/octet-stream', f.base64 ? filed.bytesOf(f.base64) : f.text);
    wentOut(files.map((f) => f.name).join(', '), where);
    return '';
  }

  // slow is what the past may take of the time between keys, in ms: where a step takes more,
  // the rest is left out.
  const slow = 150;

  // history asks for TDC after so many readings, one at a time, and gives way to keys.
  async function history(most) {
    const of = revision;
    for (let left = most; left > 0 && of === revision && at.state && at.state.tdc; left--) {
      await new Promise((go) => setTimeout(go, 60));
      if (of !== revision) return;
      const began = performance.now();
      const r = await inTurn(() => core.ask({ action: 'history', revision, most: 1 }));
      if (!r.history || of !== revision) return;
      at.history = r.history;
      tell('history');
      if (r.history.whole || performance.now() - began > slow) return;
    }
  }

  return {
    at, start, type, sit, bring, begin, attach, exported, history,
    ask: (request) => inTurn(() => ask(request)), open: () => revision > 0, watch: (f) => watchers.push(f),
    async forget(id) {
      await store.forget(id);
      if (id === at.id) {
        hold.release();
        revision = 0;
        Object.assign(at, { id: '', job: null, state: null, said: [], kept: '', history: null });
      }
      tell('state');
    },
    last() { try { return sessionStorage.getItem('evendrop-job') || ''; } catch { return ''; } },
  };
})();
