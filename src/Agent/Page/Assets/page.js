import { el, t, api, settings, keep, speak } from './tools.js';
import { follow, unfollow } from './live.js';
import { now } from './now.js';
import { round, batch } from './views.js';
import { chick } from './chick.js';
import { instruments, register, pairForm } from './devices.js';

const views = { '': now, round, chick, batch, instruments, register };
const name = location.pathname.split('/')[1];
const view = views[name] ?? now;
const main = document.getElementById('main'), link = document.getElementById('link');
let me = {}, situation, drawn = {}, drawing = false, again = false;

function label() {
  for (const node of document.querySelectorAll('[data-text]')) node.textContent = t(node.dataset.text);
  for (const node of document.querySelectorAll('[data-label]')) node.setAttribute('aria-label', t(node.dataset.label));
  document.title = `${name === 'chick' ? decodeURIComponent(location.pathname.split('/')[2] ?? '') : t(view.title)} – Capture Agent`;
  for (const anchor of document.querySelectorAll('nav a')) {
    const isHere = anchor.getAttribute('href') === `/${name}`;
    isHere ? anchor.setAttribute('aria-current', 'page') : anchor.removeAttribute('aria-current');
  }
}

/** Fetches and draws a view anew; where that is asked for meanwhile, once more after. */
async function redraw() {
  if (drawing) { again = true; return; }
  drawing = true;
  try {
    do {
      again = false;
      const nodes = await view.load(me, redraw);
      const top = scrollY;
      main.replaceChildren(...nodes.flat(3).filter(Boolean));
      scrollTo(0, top);
    } while (again);
  } catch (problem) {
    if (problem.status === 401) showPairing();
    else if (!(problem instanceof TypeError)) main.replaceChildren(el('h1', {}, t('cannot')), el('p', { role: 'alert' }, problem.message));
  } finally {
    drawing = false;
  }
}

/** A form that somebody fills in is not torn away; it is drawn anew after. */
const isBusy = () => document.querySelector('dialog[open], main details[open]') || (main.contains(document.activeElement) && document.activeElement.matches('input:not([type=checkbox])') && document.activeElement.value);

function take(next) {
  situation = next;
  if (view.draw) view.draw(next);
  else if ((drawn.record !== next.record || drawn.run !== next.run || view.live || (view === instruments && drawn.version !== next.version)) && !isBusy()) {
    drawn = next;
    redraw();
  }
}

function showPairing() {
  main.replaceChildren(...pairForm(() => location.reload()));
}

function lost(isLost) {
  if (link.hidden !== isLost) return;
  link.hidden = !isLost;
  link.textContent = isLost ? t('not-connected') : '';
}

async function start() {
  label();
  if (!view.draw) return know();
  // What is drawn from the stream alone does not wait to know who looks.
  main.replaceChildren(...view.build());
  follow(take, lost);
  know();
}

/** Who looks; the other views show by that what may be changed. */
async function know() {
  try {
    me = await api('me');
  } catch (problem) {
    if (problem.status === 401) { unfollow(); return showPairing(); }
    setTimeout(know, 1_000);
    return lost(true);
  }
  if (!view.draw) follow(take, lost);
}

const form = document.getElementById('settings');
for (const [key, value] of Object.entries(settings)) form.elements[key].value = value;
form.addEventListener('change', async event => {
  const { name: key, value } = event.target;
  settings[key] = value;
  keep(key, value);
  if (key === 'light') document.documentElement.dataset.light = value;
  if (key === 'language') await speak(value);
  label();
  if (view.draw) { main.replaceChildren(...view.build()); if (situation) view.draw(situation); } else redraw();
});
start();
