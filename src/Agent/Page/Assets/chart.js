import { el } from './tools.js';

/** Lines over a shaded band, drawn as wide as there is room, so that letters keep their size on every screen.
 * @param lines [{ className, points: [[x, y]] }]; @param band [[x, low, high]] or nothing
 * @param marks y values with their text; @param ends texts below the left and the right end */
export function chart({ label, height, left, lines, dots = [], band = [], x: [x0, x1], y: [y0, y1], marks, ends }) {
  const w = Math.max(280, Math.min(900, document.getElementById('main').clientWidth - 36)), right = 12, base = 26, top = 10;
  const x = value => left + (value - x0) / Math.max(1e-9, x1 - x0) * (w - left - right), y = value => height - base - (value - y0) / Math.max(1e-9, y1 - y0) * (height - base - top);
  const at = (a, b) => `${x(a).toFixed(1)},${y(b).toFixed(1)}`;
  return el('svg', { class: 'chart', viewBox: `0 0 ${w} ${height}`, width: w, height, role: 'img', 'aria-label': label },
    band.length > 1 ? el('polygon', { class: 'band', points: [...band.map(([a, low]) => at(a, low)), ...band.map(([a, , high]) => at(a, high)).reverse()].join(' ') }) : null,
    marks.map(([value, text]) => [el('line', { class: 'grid', x1: left, x2: w - right, y1: y(value), y2: y(value) }), el('text', { x: left - 8, y: y(value) + 5, 'text-anchor': 'end' }, text)]),
    el('text', { x: left, y: height - 5 }, ends[0]), el('text', { x: w - right, y: height - 5, 'text-anchor': 'end' }, ends[1]),
    lines.map(({ className, points }) => el('polyline', { class: className, points: points.map(([a, b]) => at(a, b)).join(' ') })),
    dots.map(([a, b]) => el('circle', { class: 'dot', cx: x(a).toFixed(1), cy: y(b).toFixed(1), r: 4 })));
}

/** Round values between two ends: three to six of them. */
export function roundMarks(low, high) {
  const rough = (high - low) / 6, power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map(each => each * power).find(each => each >= rough);
  const marks = [];
  for (let value = Math.ceil(low / step) * step; value <= high + step * 1e-6; value += step) marks.push(Number(value.toPrecision(9)));
  return marks;
}
