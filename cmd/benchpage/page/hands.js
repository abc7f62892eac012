// For hands that hold something else: awake, spoken, felt.
'use strict';

const hands = (() => {
  let lock = null;
  let wanted = false;

  async function awake(want) {
    wanted = want;
    if (!navigator.wakeLock) return;
    try {
      if (want && !lock && !document.hidden) {
        lock = await navigator.wakeLock.request('screen');
        lock.addEventListener('release', () => { lock = null; });
      } else if (!want && lock) {
        await lock.release();
      }
    } catch { /* a battery that is low refuses it */ }
  }
  document.addEventListener('visibilitychange', () => { if (!document.hidden && wanted) awake(true); });

  const voices = () => ('speechSynthesis' in window ? speechSynthesis.getVoices().filter((v) => v.localService) : []);

  // speak says something aloud, with a voice of this device only.
  function speak(text) {
    const voice = voices().find((v) => /^en/i.test(v.lang)) || voices()[0];
    if (!voice) return;
    const words = new SpeechSynthesisUtterance(text);
    words.voice = voice;
    words.lang = voice.lang;
    speechSynthesis.cancel();
    speechSynthesis.speak(words);
  }

  const live = () => document.getElementById('live');

  // aloud gives a screen reader something to say.
  function aloud(text) {
    live().textContent = '';
    setTimeout(() => { live().textContent = text; }, 30);
  }

  const felt = () => { if (navigator.vibrate) navigator.vibrate(40); };

  // A button that is drawn anew under a finger is not pressed. What would draw waits until
  // the finger is up and its click is there; a finger that stays down is no tap.
  const click = 100, held = 1000; // ms
  const due = new Set();
  let down = 0;

  function up() {
    clearTimeout(down);
    down = 0;
    const acts = [...due];
    due.clear();
    for (const act of acts) act();
  }

  function upIn(ms) {
    clearTimeout(down);
    down = setTimeout(up, ms);
  }
  document.addEventListener('pointerdown', () => upIn(held), true);
  for (const lifted of ['pointerup', 'pointercancel']) document.addEventListener(lifted, () => upIn(click), true);
  document.addEventListener('click', () => { clearTimeout(down); down = 0; setTimeout(up); }, true); // what it does is done at once

  // waits tells whether a finger is down; then act is done once it is up.
  function waits(act) {
    if (down) due.add(act);
    return down !== 0;
  }

  // lifted is there once no finger is down.
  const lifted = () => new Promise((done) => { if (!waits(done)) done(); });

  return { awake, speak, aloud, felt, waits, lifted, speaks: () => voices().length > 0, onVoices(f) { if ('speechSynthesis' in window) speechSynthesis.addEventListener?.('voiceschanged', f); } };
})();
