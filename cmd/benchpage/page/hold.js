// One tab a job: who holds it says so by a lock, or where there are no locks when it is
// asked over a channel. Another tab takes over only on request, and this one is told.
'use strict';

const hold = (() => {
  const me = Array.from(crypto.getRandomValues(new Uint32Array(4)), (n) => n.toString(36)).join('');
  const channel = 'BroadcastChannel' in window ? new BroadcastChannel('evendrop') : null;
  let held = '';         // the job that is held here
  let letGo = () => {};
  let lost = () => {};

  // take takes a job: true where it is this tab's now. By force it is taken from another.
  async function take(id, force, whenLost) {
    release();
    const mine = await locked(id, force).catch(() => asked(id, force));
    if (!mine) return false;
    held = id;
    lost = whenLost;
    if (force && channel) channel.postMessage({ taken: id, by: me });
    return true;
  }

  function release() {
    letGo();
    letGo = () => {};
    held = '';
  }

  // locked takes the lock of a job.
  function locked(id, force) {
    if (!navigator.locks) return Promise.reject(new Error('it cannot keep two tabs apart'));
    return new Promise((done, fail) => {
      navigator.locks.request(`evendrop ${id}`, force ? { steal: true } : { ifAvailable: true }, (lock) => {
        done(Boolean(lock));
        if (lock) return new Promise((free) => { letGo = free; });
        return undefined;
      }).catch((why) => {
        if (held === id && why.name === 'AbortError') gone(id);
        fail(why);
      });
    });
  }

  // asked asks the other tabs whether one of them has a job open.
  function asked(id, force) {
    if (force || !channel) return true;
    return new Promise((done) => {
      const answer = ({ data }) => { if (data.mine === id) done(false); };
      channel.addEventListener('message', answer);
      channel.postMessage({ whose: id });
      setTimeout(() => {
        channel.removeEventListener('message', answer);
        done(true);
      }, 400);
    });
  }

  function gone(id) {
    if (held !== id) return;
    held = '';
    letGo = () => {};
    lost();
  }

  if (channel) {
    channel.addEventListener('message', ({ data }) => {
      if (data.whose && data.whose === held) channel.postMessage({ mine: held });
      if (data.taken && data.taken === held && data.by !== me) gone(held);
    });
  }

  return { me, take, release };
})();
