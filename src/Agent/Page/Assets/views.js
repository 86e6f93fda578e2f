import { el, t, api, shown, change, percent, warmth, time, reasons, table, settings } from './tools.js';

const chickLink = code => el('a', { href: `/chick/${encodeURIComponent(code)}` }, code);
const order = { refused: 0, 'to-do': 1, done: 2 };

export const round = {
  title: 'round',
  async load() {
    const view = await api('round');
    const count = (key, value) => el('li', {}, el('b', {}, value), t(key));
    const rows = [...view.chicks].sort((a, b) => (b.red ? 1 : 0) - (a.red ? 1 : 0) || order[a.state] - order[b.state] || a.chick.localeCompare(b.chick));
    return [
      el('h1', {}, t('round-of', view.day)),
      el('ul', { class: 'counts' }, count('done', view.done), count('to-do', view.toDo), count('refused', view.refused), count('reds', view.reds), view.unnamed ? count('unnamed', view.unnamed) : null),
      rows.length === 0 ? el('p', {}, t('no-chicks')) : table(t('round'), [t('chick'), t('state'), { text: t('weight'), n: true }, { text: t('change'), n: true }, { text: t('days'), n: true }, t('where'), { text: t('at'), n: true }],
        rows.map(row => [
          chickLink(row.chick),
          el('span', { class: row.state === 'done' ? 'good' : row.state === 'refused' ? 'bad' : null },
            [row.state === 'done' ? '✓ ' : row.state === 'refused' ? '✕ ' : '○ ', t(row.state), row.reasons.length ? `: ${reasons(row.reasons)}` : '', row.red ? el('strong', { class: 'bad' }, ` ! ${row.red}`) : null]),
          row.state === 'to-do' ? `(${shown(row.lastGrams)})` : shown(row.grams),
          row.gainGrams === null ? '–' : `${change(row.gainGrams)} (${percent(row.gainPercent)})`,
          row.ageDays ?? '–', [row.brooder, row.clutch].filter(Boolean).join(' · ') || '–', time(row.at),
        ])),
    ];
  },
};

const minutesTo = at => at ? Math.round((new Date(at) - Date.now()) / 60_000) : null;

/** Temperatures over time, drawn from the data. */
function curve(points) {
  if (points.length < 2) return null;
  const [w, h, m] = [600, 220, 46];
  const times = points.map(p => new Date(p.at).getTime()), heats = points.map(p => p.celsius);
  const [t0, t1] = [Math.min(...times), Math.max(...times)], [low, high] = [Math.floor(Math.min(...heats) - 1), Math.ceil(Math.max(...heats) + 1)];
  const x = at => m + (at - t0) / Math.max(1, t1 - t0) * (w - m - 10), y = c => h - 26 - (c - low) / (high - low) * (h - 40);
  const lines = [low, (low + high) / 2, high];
  return el('svg', { class: 'chart', viewBox: `0 0 ${w} ${h}`, role: 'img', 'aria-label': t('curve', warmth(heats.at(-1)), time(points.at(-1).at)) },
    lines.map(c => [el('line', { class: 'grid', x1: m, x2: w - 10, y1: y(c), y2: y(c) }), el('text', { x: 0, y: y(c) + 5 }, settings.temperature === 'F' ? Math.round(c * 9 / 5 + 32) : c)]),
    el('text', { x: m, y: h - 4 }, time(points[0].at)), el('text', { x: w - 10, y: h - 4, 'text-anchor': 'end' }, time(points.at(-1).at)),
    el('polyline', { class: 'line', points: points.map((p, i) => `${x(times[i]).toFixed(1)},${y(p.celsius).toFixed(1)}`).join(' ') }));
}

export const batch = {
  title: 'batch',
  live: true,
  async load() {
    const { batch: now, temperatures } = await api('batch');
    if (!now) return [el('h1', {}, t('batch')), el('p', {}, t('no-batch')), el('p', { class: 'caution' }, t('batch-caution'))];
    const [cold, old] = [minutesTo(now.belowBandAt), minutesTo(now.discardAt)];
    return [
      el('h1', {}, now.batch === null ? t('batch') : t('batch-number', now.batch)),
      el('p', { class: 'clock' }, warmth(now.celsius)),
      el('p', { class: 'said' }, `${t(`batch-${now.state}`)}${now.settled ? '' : ` (${t('still-moving')})`}`),
      el('ul', {}, [
        cold === null ? null : el('li', {}, cold > 0 ? t('cold-in', time(now.belowBandAt), cold) : t('cold-now', time(now.belowBandAt))),
        old === null ? null : el('li', {}, old > 0 ? t('discard-in', time(now.discardAt), old) : t('discard-now')),
      ]),
      curve(temperatures.slice(-600)), el('p', { class: 'caution' }, t('batch-caution')),
    ];
  },
};
