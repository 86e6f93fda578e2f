import { el, t, known, mass, change, spread, warmth, time, reasons } from './tools.js';

const shapes = {
  good: 'M3 13l6 6L21 5', bad: 'M5 5l14 14M19 5L5 19', wait: 'M12 3v9l6 4M12 3a9 9 0 1 0 .1 0', go: 'M4 12h15M13 5l7 7-7 7', look: 'M12 4v10M12 19v.5',
};
const shapeOf = { accepted: 'good', fed: 'good', refused: 'bad', misread: 'bad', 'not-stored': 'look', weighing: 'wait', 'taken-back': 'go', card: 'go' };

const shape = name => el('svg', { viewBox: '0 0 24 24', 'aria-hidden': 'true' },
  el('path', { d: shapes[name], fill: 'none', stroke: 'currentColor', 'stroke-width': 3.4, 'stroke-linecap': 'round', 'stroke-linejoin': 'round' }));

/** What to do next: by reason where the weighing was refused, so that it can be said in every language. */
function next(pan) {
  const reason = pan.step === 'refused' && (pan.reasons ?? []).find(each => known(`remedy-${each}`));
  if (reason && document.documentElement.lang !== 'en') return t(`remedy-${reason}`);
  if (['refused', 'misread', 'not-stored'].includes(pan.step) && pan.text) return pan.text;
  return t(`next-${pan.step}`);
}

let view;

function build() {
  view = { state: el('p', { class: 'state', role: 'status' }), code: el('p', { class: 'code' }), number: el('p', { class: 'number' }), next: el('p', { class: 'next' }),
    more: el('p', { class: 'more' }), beside: el('div', { class: 'beside' }), alerts: el('ul', { class: 'alerts', 'aria-label': t('alerts') }) };
  view.all = el('section', { class: 'now', 'aria-label': t('now') }, view.state, view.code, view.number, view.next, view.more);
  return [view.all, view.beside, view.alerts];
}

function draw(situation) {
  const pan = situation.pan;
  view.all.dataset.step = pan.step;
  view.state.replaceChildren(shape(shapeOf[pan.step] ?? 'go'), el('span', {}, t(`step-${pan.step}`)));
  view.code.textContent = pan.chick ?? (pan.step === 'card' ? pan.text : '') ?? '';
  view.code.style.setProperty('--letters', Math.max(5, view.code.textContent.length));
  view.code.hidden = !view.code.textContent;
  const has = pan.grams !== null && pan.grams !== undefined;
  view.number.hidden = !has;
  if (has) {
    const [digits, unit] = mass(pan.grams);
    view.number.replaceChildren(digits, el('small', {}, unit));
    view.number.style.setProperty('--digits', digits.length);
  }
  view.next.textContent = next(pan);
  view.more.textContent = [
    pan.step === 'refused' ? reasons(pan.reasons) : null, pan.gainGrams === null || pan.gainGrams === undefined ? null : t('gain', change(pan.gainGrams)),
    has ? spread(pan.uncertaintyGrams) : null, pan.ageDays === null || pan.ageDays === undefined ? null : t('age', pan.ageDays), pan.at ? time(pan.at) : null,
  ].filter(Boolean).join(' · ');
  const quiet = situation.devices.filter(device => device.state === 'down' || device.state === 'silent');
  view.beside.replaceChildren(...[
    situation.batch && el('p', {}, situation.batch.batch === null ? `${t('role-probe')}: ${warmth(situation.batch.celsius)}` : `${t('batch')}: ${t(`batch-${situation.batch.state}`)}, ${warmth(situation.batch.celsius)}`),
    ...quiet.map(device => el('p', { class: 'bad' }, `${device.device}: ${t(`device-${device.state}`)}`)),
    ...situation.findings.filter(finding => finding.severity === 'red').map(finding => el('p', { class: 'bad' }, `${t('red')}: ${finding.text}`)),
  ].filter(Boolean));
  view.alerts.replaceChildren(...situation.alerts.slice(-3).reverse().map(alert => el('li', {}, `${time(alert.at)} ${alert.text}`)));
  view.alerts.hidden = situation.alerts.length === 0;
}

export const now = { title: 'now', build, draw };
