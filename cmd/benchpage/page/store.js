// What is kept on this device: IndexedDB, a change a transaction with all files that it
// changed. A promise of it is there when the transaction is complete, on the disk.
//
// A job has a holder, the tab that writes it: a tab that holds it no longer can write
// nothing, whatever it still has under way.
'use strict';

const store = (() => {
  const tables = ['jobs', 'files', 'typed'];
  let opening;

  function open() {
    if (!opening) {
      opening = new Promise((done, fail) => {
        const request = indexedDB.open('evendrop', 1);
        request.onupgradeneeded = () => {
          request.result.createObjectStore('jobs', { keyPath: 'id' });
          request.result.createObjectStore('files', { keyPath: ['job', 'name'] });
          request.result.createObjectStore('typed', { keyPath: 'n', autoIncrement: true });
        };
        request.onerror = () => fail(request.error);
        request.onblocked = () => fail(new Error('another tab has an older version of this page open'));
        request.onsuccess = () => {
          request.result.onversionchange = () => request.result.close();
          request.result.onclose = () => { opening = undefined; };
          done(request.result);
        };
      });
      opening.catch(() => { opening = undefined; });
    }
    return opening;
  }

  // change does work in one transaction, and is its value once that is on the disk.
  async function change(work) {
    const db = await open();
    return new Promise((done, fail) => {
      const change = db.transaction(tables, 'readwrite', { durability: 'strict' });
      let value;
      change.oncomplete = () => done(value);
      change.onabort = () => fail(change.error || change.why || new Error('the change was not kept'));
      work(Object.fromEntries(tables.map((name) => [name, change.objectStore(name)])), (v) => { value = v; }, (why) => {
        change.why = why;
        change.abort();
      });
    });
  }

  async function look(name, query) {
    const db = await open();
    return new Promise((done, fail) => {
      const request = db.transaction(name, 'readonly').objectStore(name).getAll(query);
      request.onsuccess = () => done(request.result);
      request.onerror = () => fail(request.error);
    });
  }

  const filesOf = (id) => IDBKeyRange.bound([id], [id, []]);
  const row = (id, f) => ({ ...f, job: id });
  const plain = ({ job, ...f }) => f;

  // add keeps a new job with its files.
  const add = (job, files) => change(({ jobs, files: table }) => {
    jobs.put(job);
    for (const f of files) table.put(row(job.id, f));
  });

  // keep keeps files that changed, and what is said of their job; typed is a line that was
  // kept before it was obeyed, and is obeyed now.
  const keep = (id, holder, files, said, typed) => change((to, _, refuse) => {
    to.jobs.get(id).onsuccess = ({ target: { result: job } }) => {
      if (!job || job.holder !== holder) return refuse(new Error('taken over'));
      to.jobs.put({ ...job, ...said });
      for (const f of files) to.files.put(row(id, f));
      if (typed !== undefined) to.typed.delete(typed);
    };
  });

  // claim makes a tab the holder of a job, and is the job with its files as they are then.
  const claim = (id, holder) => change((to, done, refuse) => {
    to.jobs.get(id).onsuccess = ({ target: { result: job } }) => {
      if (!job) return refuse(new Error('this job is not on this device any more'));
      job.holder = holder;
      to.jobs.put(job);
      to.files.getAll(filesOf(id)).onsuccess = ({ target }) => done({ job, files: target.result.map(plain) });
    };
  });

  // later keeps a line that cannot be obeyed yet.
  const later = (id, line) => change(({ typed }) => { typed.add({ job: id, line }); });
  const drop = (n) => change(({ typed }) => { typed.delete(n); });

  // forget takes a job off this device.
  const forget = (id) => change(({ jobs, files }) => {
    jobs.delete(id);
    files.delete(filesOf(id));
  });

  const jobs = async () => (await look('jobs')).sort((a, b) => b.at - a.at);
  const waiting = async (id) => (await look('typed')).filter((t) => t.job === id);

  return { add, keep, claim, later, drop, forget, jobs, waiting, files: async (id) => (await look('files', filesOf(id))).map(plain) };
})();
