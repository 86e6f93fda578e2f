import { el, t, known as knows, api, shown, spread, time, moment, reasons, table, ask, settings, mass, findingText, details, english, download } from './tools.js';
import { chart as plot, roundMarks } from './chart.js';

/** The growth record as a line over the reference; the table below says the same in words. */
function chart(growth, hatched, reference) {
  if (growth.length < 2) return null;
  const day = text => Date.parse(text) / 86_400_000, born = hatched ? day(hatched) : null;
  const points = growth.map(p => [day(p.day) - (born ?? 0), p.grams]), [d0, d1] = [points[0][0], points.at(-1)[0] + (born === null ? 0 : 3)];
  const near = reference.points.filter(p => p.ageDays >= Math.floor(d0) && p.ageDays <= Math.ceil(d1));
  const all = [...growth.map(p => p.grams), ...near.flatMap(p => [p.low, p.high])], [low, high] = [Math.min(...all) * .97, Math.max(...all) * 1.03];
  return plot({
    label: t('growth-line', growth.length, shown(growth[0].grams), shown(growth.at(-1).grams), near.length ? t('band-of') : ''), height: 300, left: 62, x: [d0, d1], y: [low, high],
    band: near.map(p => [p.ageDays, p.low, p.high]), lines: [{ className: 'median', points: near.map(p => [p.ageDays, p.median]) }, { className: 'line', points }], dots: points,
    marks: roundMarks(low, high).map(g => [g, settings.mass === 'g' && Number.isInteger(g) ? g : mass(g)[0]]), ends: born === null ? [growth[0].day, growth.at(-1).day] : [`${t('age', Math.round(d0))}`, `${t('age', Math.round(d1))}`],
  });
}

const bandNote = reference => reference.kind && el('p', { class: 'small' }, `${t('band-of')} `, settings.language === 'en' ? english(`${reference.source[0].toUpperCase()}${reference.source.slice(1)}.`) : t(`band-${reference.kind}`));

/** It changes slowly and costs the station some work: once a visit. */
let reference;

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
    const [record, band] = await Promise.all([api(`chicks/${encodeURIComponent(code)}/record`), reference ?? api(`chicks/${encodeURIComponent(code)}/reference`).catch(() => null)]);
    reference = band ?? { kind: null, points: [] };
    const say = el('p', { class: 'said bad', role: 'alert' });
    const mayWrite = me.role === 'keeper';
    const known = record.chick;
    const about = [known?.species, record.ageDays === null ? null : t('age', record.ageDays), known?.left ? `${t('left')} ${known.left}` : null, known?.brooder, known?.clutch, known?.band, known?.note].filter(Boolean).join(' · ');
    const act = row => mayWrite && row.state === 'stands' ? el('div', { class: 'acts' },
      el('button', { type: 'button', 'aria-label': t('correct-title', shown(row.grams), row.day), onclick: told(say, () => correct(row, code, redraw)) }, t('correct')),
      el('button', { type: 'button', 'aria-label': t('take-back-title', shown(row.grams), row.day), onclick: told(say, () => takeBack('weighings', row.id, t('take-back-title', shown(row.grams), row.day), redraw)) }, t('take-back'))) : '';
    return [
      el('h1', {}, code), el('p', {}, known ? about || t('nothing-noted') : t('not-registered')), say,
      record.findings.map(finding => el('p', { class: finding.severity === 'red' ? 'bad' : 'said' }, `${t(`severity-${finding.severity}`)}: ${findingText({ ...finding, chick: null })}. `, details(finding))),
      chart(record.growth, known?.hatched, reference), record.growth.length < 2 ? null : bandNote(reference),
      el('h2', {}, t('weights')),
      record.weighings.length === 0 ? el('p', {}, t('no-weights')) : table(t('weights'), [t('day'), { text: t('at'), n: true }, { text: t('weight'), n: true }, t('state'), t('changed')],
        record.weighings.map(row => ({ className: row.state === 'stands' ? null : 'gone', cells: [
          row.day, time(row.at), [shown(row.grams), ' ', el('small', {}, spread(row.uncertaintyGrams))],
          el('span', { class: row.verdict === 'accepted' ? 'good' : 'bad' }, [row.verdict === 'accepted' ? `✓ ${t('accepted')}` : `✕ ${t('is-refused')}: ${reasons(row.reasons)}`, row.state === 'stands' ? '' : ` (${t(row.state)})`]),
          [hand('by-hand', row.added), hand('taken-by', row.takenBack), act(row)].filter(Boolean),
        ] }))),
      el('h2', {}, t('feeds')),
      record.feeds.length === 0 ? el('p', {}, t('no-feeds')) : table(t('feeds'), [t('day'), { text: t('at'), n: true }, { text: t('intake'), n: true }, t('way'), t('batch'), ''], [...record.feeds].reverse().map(feed => [
        feed.day, time(feed.at), shown(feed.intakeGrams), t(`way-${feed.way}`), feed.batch === null ? '–' : `${feed.batch}${feed.batchState ? `, ${t(`batch-${feed.batchState}`)}` : ''}`,
        mayWrite ? el('button', { type: 'button', 'aria-label': t('take-feed-back', time(feed.at)), onclick: told(say, () => takeBack('feeds', feed.id, t('take-feed-back', time(feed.at)), redraw)) }, t('take-back')) : '',
      ])),
      el('h2', {}, t('notes')),
      record.notes.length === 0 ? el('p', {}, t('no-notes')) : table(t('notes'), [t('day'), { text: t('at'), n: true }, t('seen')], record.notes.map(note => [note.day, time(note.at), knows(`note-${note.kind}`) ? t(`note-${note.kind}`) : note.kind])),
      known && mayWrite ? el('div', { class: 'acts' }, el('button', { type: 'button', onclick: told(say, () => edit(known, redraw)) }, t('change-entry')),
        el('button', { type: 'button', onclick: told(say, () => download(`labels?chick=${encodeURIComponent(code)}&language=${settings.language}`, `${code}.pdf`)) }, t('print-card'))) : null,
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
