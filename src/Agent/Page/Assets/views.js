import { el, t, api, shown, change, percent, warmth, time, reasons, table, settings, findingText } from './tools.js';
import { minutesTo, ticking } from './clock.js';
import { chart } from './chart.js';

const chickLink = code => el('a', { href: `/chick/${encodeURIComponent(code)}` }, code);
const order = { refused: 0, 'to-do': 1, done: 2 };

const inHours = minutes => minutes < 60 ? t('minutes', minutes) : t('hours', Math.floor(minutes / 60), minutes % 60);

/** When the next feed is due, and when it is now. */
const due = row => row.feedDueAt === null ? '–' : ticking(el('span'), node => {
  const left = minutesTo(row.feedDueAt);
  node.className = left < 0 ? 'bad' : '';
  node.textContent = left < 0 ? `! ${t('due-now')}, ${time(row.feedDueAt)}` : `${time(row.feedDueAt)}, ${t('due-in', inHours(left))}`;
});

export const round = {
  title: 'round',
  async load() {
    const view = await api('round');
    const count = (key, value) => el('li', {}, el('b', {}, value), t(key));
    const rows = [...view.chicks].sort((a, b) => (b.red ? 1 : 0) - (a.red ? 1 : 0) || order[a.state] - order[b.state] || a.chick.localeCompare(b.chick));
    return [
      el('h1', {}, t('round-of', view.day)),
      el('ul', { class: 'counts' }, count('done', view.done), count('to-do', view.toDo), count('refused', view.refused), count('reds', view.reds), view.unnamed ? count('unnamed', view.unnamed) : null),
      rows.length === 0 ? el('p', {}, t('no-chicks')) : table(t('round'), [t('chick'), t('state'), { text: t('weight'), n: true }, { text: t('change'), n: true }, { text: t('days'), n: true }, t('feed-due'), t('where'), { text: t('at'), n: true }],
        rows.map(row => [
          chickLink(row.chick),
          [el('span', { class: row.state === 'done' ? 'good' : row.state === 'refused' ? 'bad' : null },
            [row.state === 'done' ? '✓ ' : row.state === 'refused' ? '✕ ' : '○ ', t(`is-${row.state}`), row.reasons.length ? `: ${reasons(row.reasons)}` : '']),
          row.red ? el('div', {}, el('strong', { class: 'bad' }, `! ${findingText({ ...row.red, chick: null })}`)) : null],
          row.state === 'to-do' ? (row.lastGrams === null ? '–' : `(${shown(row.lastGrams)})`) : shown(row.grams),
          row.gainGrams === null ? '–' : `${change(row.gainGrams)} (${percent(row.gainPercent)})`,
          row.ageDays ?? '–', due(row), [row.brooder, row.clutch].filter(Boolean).join(' · ') || '–', time(row.at),
        ])),
    ];
  },
};

/** Temperatures over time, drawn from the data. */
function curve(points) {
  if (points.length < 2) return null;
  const times = points.map(p => Date.parse(p.at)), heats = points.map(p => p.celsius);
  const [low, high] = [Math.floor(Math.min(...heats) - 1), Math.ceil(Math.max(...heats) + 1)];
  return chart({
    label: t('curve', warmth(heats.at(-1)), time(points.at(-1).at)), height: 220, left: 44, x: [times[0], times.at(-1)], y: [low, high],
    lines: [{ className: 'line', points: points.map((p, i) => [times[i], p.celsius]) }],
    marks: [low, (low + high) / 2, high].map(c => [c, settings.temperature === 'F' ? Math.round(c * 9 / 5 + 32) : c]), ends: [time(points[0].at), time(points.at(-1).at)],
  });
}

/** Minutes that run down by themselves, until they have run out. */
const countdown = (at, soon, since, then) => at === null ? null : ticking(el('li'), node => {
  const left = minutesTo(at);
  node.className = left < 0 ? 'bad' : '';
  node.replaceChildren(left < 0 ? `! ${t(since)} ` : `${t(soon)} `, el('b', {}, left < 0 ? time(at) : t('minutes', left)), left < 0 ? `: ${t(then)}` : ` ${t('at-time', time(at))}`);
});

export const batch = {
  title: 'batch',
  live: true,
  async load() {
    const { batch: now, temperatures } = await api('batch');
    if (!now) return [el('h1', {}, t('batch')), el('p', {}, t('no-batch')), el('p', { class: 'caution' }, t('batch-caution'))];
    const isOut = () => [now.belowBandAt, now.discardAt].some(at => at !== null && minutesTo(at) < 0);
    return [
      el('h1', {}, now.batch === null ? t('batch') : t('batch-number', now.batch)),
      el('p', { class: 'clock' }, warmth(now.celsius)),
      ticking(el('p', { class: 'batch-state' }), node => {
        node.textContent = `${now.state === 'in-range' && isOut() ? t('was-in-range') : t(`batch-${now.state}`)}${now.settled ? '' : ` (${t('still-moving')})`}`;
        node.classList.toggle('bad', ['stop', 'too-hot', 'discard', 'stir'].includes(now.state) || isOut());
      }),
      el('ul', { class: 'ends' }, countdown(now.belowBandAt, 'cold-in', 'cold-since', 'measure-again'), countdown(now.discardAt, 'discard-in', 'discard-since', 'discard-now')),
      curve(temperatures.slice(-600)), el('p', { class: 'caution' }, t('batch-caution')),
    ];
  },
};
