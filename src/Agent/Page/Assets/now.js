import { el, t, known, mass, shown, change, spread, warmth, time, reasons, alertText, findingText, details, settings } from './tools.js';
import { now as stationTime, minutesTo, ticking } from './clock.js';

const shapes = {
  good: 'M3 13l6 6L21 5', bad: 'M5 5l14 14M19 5L5 19', wait: 'M12 3v9l6 4M12 3a9 9 0 1 0 .1 0', go: 'M4 12h15M13 5l7 7-7 7', look: 'M12 4v10M12 19v.5',
};
const shapeOf = { accepted: 'good', fed: 'good', noted: 'good', 'checked-good': 'good', 'checked-off': 'bad', refused: 'bad', misread: 'bad', 'not-stored': 'look', lost: 'bad', weighing: 'wait', 'taken-back': 'go', card: 'go' };

const shape = name => el('svg', { viewBox: '0 0 24 24', 'aria-hidden': 'true' },
  el('path', { d: shapes[name], fill: 'none', stroke: 'currentColor', 'stroke-width': 3.4, 'stroke-linecap': 'round', 'stroke-linejoin': 'round' }));

/** What to do next: by reason where the weighing was refused, so that it can be said in every language. */
function next(pan, step) {
  const reason = pan.step === 'refused' && (pan.reasons ?? []).find(each => known(`remedy-${each}`));
  if (settings.language === 'en' && ['refused', 'misread'].includes(pan.step) && pan.text) return pan.text;
  return reason ? t(`remedy-${reason}`) : t(`next-${step}`);
}

// What cannot wait stays for hours; the rest is old news after half an hour.
const urgent = ['not-stored', 'lost', 'feed-late', 'observation-urgent', 'batch-stop', 'batch-stir'];
const isFresh = alert => stationTime() - Date.parse(alert.at) < (urgent.includes(alert.alert) ? 12 : .5) * 3_600_000;

/** The batch in a few words, whose minutes run down by themselves. */
function batchTile(batch) {
  if (batch.batch === null) return el('p', {}, `${t('role-probe')}: ${warmth(batch.celsius)}`);
  const ends = [['belowBandAt', 'cold-in', 'cold-since'], ['discardAt', 'discard-in', 'discard-since']].filter(([name]) => batch[name]).sort((a, b) => Date.parse(batch[a[0]]) - Date.parse(batch[b[0]]));
  return ticking(el('p'), node => {
    const passed = ends.find(([name]) => minutesTo(batch[name]) < 0), [name, soon] = ends[0] ?? [];
    node.className = passed ? 'bad' : '';
    node.textContent = [`${t('batch')}: ${t(`batch-${batch.state}`)}, ${warmth(batch.celsius)}`,
      passed ? `${t(passed[2])} ${time(batch[passed[0]])}` : name && batch.state === 'in-range' ? `${t(soon)} ${t('minutes', minutesTo(batch[name]))}` : null].filter(Boolean).join(' · ');
  });
}

function dueTiles(dues) {
  const fed = dues.filter(due => due.due === 'feed'), most = 4;
  return [
    fed.length ? el('p', { class: 'due' }, `${t('due-feed')}: ${fed.slice(0, most).map(due => due.chick).join(', ')}${fed.length > most ? ` ${t('more', fed.length - most)}` : ''}`) : null,
    ...dues.filter(due => due.due !== 'feed').map(due => el('p', {}, known(`due-${due.due}`) ? t(`due-${due.due}`) : due.due)),
  ];
}

// What it is, large; then what else there is to say, without naming the chick twice.
const toldLine = (said, told) => {
  const more = details(told), short = more?.startsWith(`${told.chick}: `) ? more.slice(told.chick.length + 2) : more;
  return [el('strong', {}, said), short ? el('span', { class: 'more', lang: settings.language }, short) : null];
};

let view;

function build() {
  view = { state: el('p', { class: 'state', role: 'status' }), code: el('p', { class: 'code' }), number: el('p', { class: 'number' }), gain: el('p', { class: 'gain' }), next: el('p', { class: 'next' }),
    more: el('p', { class: 'more' }), red: el('ul', { class: 'alerts', 'aria-label': t('reds') }), beside: el('div', { class: 'beside' }), alerts: el('ul', { class: 'alerts', 'aria-label': t('alerts') }) };
  view.all = el('section', { class: 'now', 'aria-label': t('now') }, view.state, view.code, el('div', { class: 'weight' }, view.number, view.gain), view.next, view.more);
  return [view.all, view.red, view.beside, view.alerts];
}

function draw(situation) {
  const pan = situation.pan, step = pan.step === 'checked' ? `checked-${pan.text}` : pan.step;
  view.all.dataset.step = pan.step;
  view.state.replaceChildren(shape(shapeOf[step] ?? 'go'), el('span', {}, t(`step-${step}`)));
  view.code.textContent = pan.chick ?? (pan.step === 'card' ? pan.text : '') ?? '';
  view.code.style.setProperty('--letters', Math.max(5, view.code.textContent.length));
  view.code.hidden = !view.code.textContent;
  const has = pan.grams !== null && pan.grams !== undefined, gained = pan.gainGrams !== null && pan.gainGrams !== undefined;
  view.number.hidden = !has;
  if (has) {
    const [digits, unit] = mass(pan.grams);
    view.number.replaceChildren(digits, el('small', {}, unit));
    view.number.style.setProperty('--digits', digits.length);
  }
  view.gain.hidden = !gained;
  view.gain.replaceChildren(...gained ? [el('b', {}, change(pan.gainGrams)), ` ${t('gain', '').trim()}`] : []);
  view.next.textContent = next(pan, step);
  view.more.textContent = [
    pan.step === 'refused' ? reasons(pan.reasons) : null, pan.step === 'noted' ? t(known(`note-${pan.text}`) ? `note-${pan.text}` : 'step-noted') : null, pan.intakeGrams === null ? null : t('took', shown(pan.intakeGrams)),
    has ? spread(pan.uncertaintyGrams) : null, pan.ageDays === null || pan.ageDays === undefined ? null : t('age', pan.ageDays), pan.at ? time(pan.at) : null,
  ].filter(Boolean).join(' · ');
  const quiet = situation.devices.filter(device => device.state === 'down' || device.state === 'silent');
  view.beside.replaceChildren(...[
    situation.batch && batchTile(situation.batch),
    ...quiet.map(device => el('p', { class: 'bad' }, `${device.device}: ${t(`device-${device.state}`)}`)), ...dueTiles(situation.dues),
  ].filter(Boolean));
  view.red.replaceChildren(...situation.findings.filter(finding => finding.severity === 'red').map(finding => el('li', { class: 'red' }, `${t('red-now')} `, toldLine(findingText(finding), finding))));
  view.alerts.replaceChildren(...situation.alerts.filter(isFresh).slice(-3).reverse().map(alert => el('li', {}, `${time(alert.at)} `, toldLine(alertText(alert), alert))));
  for (const list of [view.red, view.alerts]) list.hidden = !list.firstChild;
}

export const now = { title: 'now', build, draw };
