import { el, t, api, shown, spread, time, moment, reasons, table, ask, settings, mass } from './tools.js';

/** The growth record as a line; the table below says the same in words. */
function chart(growth) {
  if (growth.length < 2) return null;
  const [w, h, left, base] = [640, 280, 62, 28];
  const days = growth.map(p => Date.parse(p.day) / 86_400_000), grams = growth.map(p => p.grams);
  const [d0, d1] = [days[0], days.at(-1)], [low, high] = [Math.min(...grams) * .97, Math.max(...grams) * 1.03];
  const x = day => left + (day - d0) / Math.max(1, d1 - d0) * (w - left - 14), y = g => h - base - (g - low) / (high - low) * (h - base - 12);
  const marks = [0, 1, 2, 3].map(i => low + (high - low) * i / 3);
  return el('svg', { class: 'chart', viewBox: `0 0 ${w} ${h}`, role: 'img', 'aria-label': t('growth-line', growth.length, shown(grams[0]), shown(grams.at(-1))) },
    marks.map(g => [el('line', { class: 'grid', x1: left, x2: w - 14, y1: y(g), y2: y(g) }), el('text', { x: left - 6, y: y(g) + 5, 'text-anchor': 'end' }, mass(g)[0])]),
    el('text', { x: left, y: h - 6 }, growth[0].day), el('text', { x: w - 14, y: h - 6, 'text-anchor': 'end' }, growth.at(-1).day),
    el('polyline', { class: 'line', points: growth.map((p, i) => `${x(days[i]).toFixed(1)},${y(p.grams).toFixed(1)}`).join(' ') }),
    growth.map((p, i) => el('circle', { class: 'dot', cx: x(days[i]).toFixed(1), cy: y(p.grams).toFixed(1), r: 4 })));
}

const reason = () => ({ name: 'reason', label: t('why'), required: true, maxlength: 500 });

async function correct(row, code, redraw) {
  const unit = settings.mass;
  const given = await ask(t('correct-title', shown(row.grams), row.day), [
    { name: 'grams', label: `${t('weight')} (${unit})`, type: 'number', step: 'any', min: 0, value: row.grams === null ? '' : unit === 'oz' ? (row.grams / 28.349523125).toFixed(3) : row.grams },
    { name: 'chick', label: t('whose'), value: row.chick ?? code }, reason(),
  ], t('correct'));
  if (!given) return;
  const typed = given.grams === '' ? null : Number(given.grams) * (unit === 'oz' ? 28.349523125 : 1);
  const grams = typed !== null && Math.abs(typed - row.grams) < .0005 ? null : typed;
  await api(`weighings/${row.id}/corrections`, { method: 'POST', json: { grams: grams === null ? null : Math.round(grams * 1000) / 1000, chick: given.chick || null, reason: given.reason } });
  redraw();
}

async function takeBack(kind, id, title, redraw) {
  const given = await ask(title, [reason()], t('take-back'));
  if (!given) return;
  await api(`${kind}/${id}/take-back`, { method: 'POST', json: { reason: given.reason } });
  redraw();
}

const told = (say, work) => () => work().catch(problem => { say.textContent = problem.message; });
const hand = (key, entry) => entry && el('div', {}, t(key, entry.who, moment(entry.at), entry.reason));

export const chick = {
  title: 'chick',
  async load(me, redraw) {
    const code = decodeURIComponent(location.pathname.split('/')[2] ?? '');
    const record = await api(`chicks/${encodeURIComponent(code)}/record`);
    const say = el('p', { class: 'said bad', role: 'alert' });
    const mayWrite = me.role === 'keeper';
    const known = record.chick;
    const about = [known?.species, record.ageDays === null ? null : t('age', record.ageDays), known?.brooder, known?.clutch, known?.band, known?.note].filter(Boolean).join(' · ');
    const act = row => mayWrite && row.state === 'stands' ? el('div', { class: 'acts' },
      el('button', { type: 'button', 'aria-label': t('correct-title', shown(row.grams), row.day), onclick: told(say, () => correct(row, code, redraw)) }, t('correct')),
      el('button', { type: 'button', 'aria-label': t('take-back-title', shown(row.grams), row.day), onclick: told(say, () => takeBack('weighings', row.id, t('take-back-title', shown(row.grams), row.day), redraw)) }, t('take-back'))) : '';
    return [
      el('h1', {}, code), el('p', {}, known ? about || t('nothing-noted') : t('not-registered')), say,
      record.findings.map(finding => el('p', { class: finding.severity === 'red' ? 'bad' : 'said' }, `${t(`severity-${finding.severity}`)}: ${finding.text}`)),
      chart(record.growth),
      el('h2', {}, t('weights')),
      record.weighings.length === 0 ? el('p', {}, t('no-weights')) : table(t('weights'), [t('day'), { text: t('at'), n: true }, { text: t('weight'), n: true }, t('state'), t('changed')],
        record.weighings.map(row => ({ className: row.state === 'stands' ? null : 'gone', cells: [
          row.day, time(row.at), [shown(row.grams), ' ', el('small', {}, spread(row.uncertaintyGrams))],
          el('span', { class: row.verdict === 'accepted' ? 'good' : 'bad' }, [row.verdict === 'accepted' ? `✓ ${t('accepted')}` : `✕ ${t('refused')}: ${reasons(row.reasons)}`, row.state === 'stands' ? '' : ` (${t(row.state)})`]),
          [hand('by-hand', row.added), hand('taken-by', row.takenBack), act(row)].filter(Boolean),
        ] }))),
      el('h2', {}, t('feeds')),
      record.feeds.length === 0 ? el('p', {}, t('no-feeds')) : table(t('feeds'), [t('day'), { text: t('at'), n: true }, t('batch'), ''], record.feeds.map(feed => [
        feed.day, time(feed.at), feed.batch === null ? '–' : `${feed.batch}${feed.batchState ? `, ${t(`batch-${feed.batchState}`)}` : ''}`,
        mayWrite ? el('button', { type: 'button', 'aria-label': t('take-feed-back', time(feed.at)), onclick: told(say, () => takeBack('feeds', feed.id, t('take-feed-back', time(feed.at)), redraw)) }, t('take-back')) : '',
      ])),
      known && mayWrite ? el('p', {}, el('button', { type: 'button', onclick: told(say, () => edit(known, redraw)) }, t('change-entry'))) : null,
    ];
  },
};

async function edit(known, redraw) {
  const current = await api(`chicks/${encodeURIComponent(known.code)}`);
  const given = await ask(t('change-entry'), [
    { name: 'species', label: t('species'), value: current.species ?? '' }, { name: 'hatched', label: t('hatched'), type: 'date', value: current.hatched ?? '' },
    { name: 'clutch', label: t('clutch'), value: current.clutch ?? '' }, { name: 'brooder', label: t('brooder'), value: current.brooder ?? '' },
    { name: 'band', label: t('band'), value: current.band ?? '' }, { name: 'left', label: t('left'), type: 'date', value: current.left ?? '' },
    { name: 'note', label: t('note'), value: current.note ?? '' }, reason(),
  ], t('save'));
  if (!given) return;
  await api(`chicks/${encodeURIComponent(known.code)}`, { method: 'PUT', headers: { 'If-Match': current.tag }, json: blankToNull(given) });
  redraw();
}

export const blankToNull = given => Object.fromEntries(Object.entries(given).map(([name, value]) => [name, value === '' ? null : value]));
