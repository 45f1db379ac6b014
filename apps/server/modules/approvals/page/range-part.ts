import type { RangeResponse } from '../../estimates/index.js';
import { html, type Html } from './html.js';
import type { OwnerModel } from './model.js';
import { RANGE_WORDS as SAY } from './range-words.js';

/** Style rules of this part. */
export const RANGE_RULES = [
  '.range{border:1.5px solid var(--edge);border-radius:4px;background:var(--sheet);margin:16px 0}',
  '.range .three{display:grid;grid-template-columns:1fr auto;gap:3px 14px;align-items:baseline}',
  '.range dt{font-size:1rem}.range dd{margin:0;text-align:right;font-weight:750;white-space:nowrap}',
  '.range .three dd:first-of-type{font-size:1.45rem;line-height:1.2;letter-spacing:-.02em;font-weight:800}',
  '.range .bar{display:block;width:100%;height:30px;margin:2px 0 0;overflow:visible}',
  '.bar path{fill:var(--ink)}.bar line{stroke:var(--ink);stroke-width:2.5;vector-effect:non-scaling-stroke}',
  '.bar .base{stroke:var(--edge);stroke-width:1.5}.bar .likely{stroke-width:4}',
  '.range .worth{border-top:2px dotted var(--edge);padding-top:10px;display:grid;grid-template-columns:1fr auto;gap:3px 14px;align-items:baseline}',
].join('');

/** Causes that are named, and from which share on. */
const NAMED = 3;
const SMALLEST = 8;
const PER_HUNDREDTH_PPM = 10_000;

/**
 * The bar: as high as the total is likely, in three steps that narrow to the right, from P10 over P50 and P80 to P95. Height
 * tells it, not colour. A foot as wide as the whole, and a stroke at each of the three amounts that are written above.
 */
function bar({ p10Cents, p50Cents, p80Cents, p95Cents }: RangeResponse): Html {
  const whole = p95Cents - p10Cents;
  const at = (amount: number): string => (((amount - p10Cents) / whole) * 1000).toFixed(1);
  const [likely, eight] = [at(p50Cents), at(p80Cents)];
  const shape = `M0 26V4H${likely}V11H${eight}V19H1000V26Z`;
  return html`<svg class="bar" viewBox="0 0 1000 30" preserveAspectRatio="none" aria-hidden="true">
    <path d="${shape}" />
    <line class="base" x1="0" x2="1000" y1="28" y2="28" />
    <line class="likely" x1="${likely}" x2="${likely}" y1="0" y2="30" />
    <line x1="${eight}" x2="${eight}" y1="7" y2="30" />
    <line x1="1000" x2="1000" y1="15" y2="30" />
  </svg>`;
}

function causeWords({ kind, words }: RangeResponse['shares'][number]): string {
  if (kind === 'unseen') return SAY.notSeen(words);
  return kind === 'contingency' ? SAY.ifHappens(words) : words;
}

function causes({ shares }: RangeResponse): Html | false {
  const named = shares.slice(0, NAMED).flatMap((share) => {
    const hundredths = Math.round(share.sharePpm / PER_HUNDREDTH_PPM);
    const part = hundredths < SMALLEST ? null : SAY.part(hundredths);
    return part === null ? [] : [SAY.causesOne(causeWords(share), part)];
  });
  return (
    named.length > 0 &&
    html`<p>${SAY.causes}</p>
      <ul>
        ${named.map((words) => html`<li>${words}</li>`)}
      </ul>`
  );
}

/** Whole units of the currency: "about" needs no cents. A bound is rounded up, since it says "below". */
const roundly = (amount: number): number => Math.round(amount / 100) * 100;
const upwards = (amount: number): number => Math.ceil(amount / 100) * 100;

function spreadOut({ formats }: OwnerModel, range: RangeResponse): Html {
  const row = (name: string, amount: number): Html =>
    html`<dt>${name}</dt>
      <dd>${formats.roundMoney(amount)}</dd>`;
  return html`<p>${SAY.lead}</p>
    <dl class="three">
      ${row(SAY.likely, roundly(range.p50Cents))}${row(SAY.eight, upwards(range.p80Cents))}${row(SAY.most, upwards(range.p95Cents))}
    </dl>
    ${bar(range)}
    <p class="small">
      ${SAY.drawn(formats.roundMoney(roundly(range.p10Cents)), formats.roundMoney(upwards(range.p95Cents)))}
    </p>
    ${causes(range)}
    <p>
      <b>${SAY.holds}</b>${range.agreedCents > 0 && html` ${SAY.agreed(formats.money(range.agreedCents))}`}
    </p>`;
}

/** What the car is worth beside what all of it costs, and the ratio; what to make of it is the owner's. */
function worth({ approval, formats }: OwnerModel, allCents: number): Html | false {
  const value = approval.document.vehicleValueCents ?? 0;
  if (value === 0) return false;
  const part = Math.round((allCents * 100) / value);
  return html`<dl class="worth">
    <dt>${SAY.all}</dt>
    <dd>${formats.money(allCents)}</dd>
    <dt>${SAY.value}</dt>
    <dd>${formats.money(value)}</dd>
    <dt>${SAY.ratio}</dt>
    <dd>${SAY.percent(formats.whole(part))}</dd>
  </dl>`;
}

/** What all of it may come to, drawn and in words; nothing where neither it varies nor the car's worth is known. */
export function rangePart(model: OwnerModel): Html | false {
  const { range } = model;
  const varies = range.p95Cents > range.p10Cents;
  const value = worth(model, range.priceCents);
  return (
    (varies || value !== false) &&
    html`<section class="range">
      <div class="body">
        <h2>${SAY.heading}</h2>
        ${varies && spreadOut(model, range)}${value}
      </div>
    </section>`
  );
}
