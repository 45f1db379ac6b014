import type { FoundSet } from '#libs/choice';
import { MAY_DRIVE_WORDS, type LineToChoose, type Solved } from '../../estimates/index.js';
import { html, Html } from './html.js';
import { ladderPart } from './ladder-part.js';
import type { OwnerLine, OwnerModel } from './model.js';
import { plainSum, type Spend } from './spend.js';
import { SPEND_WORDS as SAY, WORDS } from './words.js';

/** Style rules of this part. */
export const SPEND_RULES = [
  '.spend{border-block:3px double;margin:20px 0 4px;padding:14px 0 12px}',
  '.spend>p,details>p,.steps ol{color:var(--ink-2)}.spend>p{margin-top:6px}',
  '.spend .ticket{padding:14px 16px 15px;margin:14px 0}',
  '.spend>form{display:flex;flex-wrap:wrap;gap:0 10px;align-items:end}.spend>form>*{flex:1 1 100%}',
  '.spend>form .name{flex:1 1 140px}.spend>form .second{flex:0 1 auto;width:auto;padding:0 18px;margin:6px 0 0}',
  '.spend .second{margin:12px 0}.body li b{color:var(--ink)}.spend .alert p{color:inherit}',
  'h4{font-size:1.0625rem;font-weight:750}',
  'summary{min-height:44px;padding:10px 0;cursor:pointer;font-weight:650;color:var(--carbon)}',
  '.body details[open]{display:grid;gap:8px}',
  '.steps ol{padding-left:1.5em}.steps li{padding:9px 0}.steps a{display:inline-block;padding:9px 0;margin:-9px 0;min-width:5.5em}',
].join('');

/** Longer than any sum; what comes back into the field is what was typed. */
const ECHO = 40;

/** Whether a line that must be in is done in another way: by one that it excludes and that is chosen or agreed to. */
function isStoodIn(line: LineToChoose, lines: readonly LineToChoose[], done: ReadonlySet<string>): boolean {
  return lines.some(
    (other) => done.has(other.id) && (other.excludes.includes(line.id) || line.excludes.includes(other.id)),
  );
}

function shownLine(model: OwnerModel, id: string): OwnerLine | undefined {
  return model.approval.document.lines.find((line) => line.id === id);
}

interface Told {
  readonly model: OwnerModel;
  readonly lines: readonly LineToChoose[];
  readonly set: FoundSet;
}

/** What waits, each with what it means for driving. */
function waiting({ model, lines, set }: Told, done: ReadonlySet<string>): Html | false {
  const items = lines
    .filter(({ id }) => set.leftOut.includes(id))
    .map((line) => {
      const words = shownLine(model, line.id)?.mayDrive ?? MAY_DRIVE_WORDS.yes;
      const otherWay = isStoodIn(line, lines, done);
      const note = otherWay ? SAY.otherWay : words === MAY_DRIVE_WORDS.yes ? null : words;
      return html`<li>${line.title}${note !== null && html`. <b>${note}</b>`}</li>`;
    });
  return (
    items.length > 0 &&
    html`<p><b>${SAY.waiting}</b></p>
      <ul>
        ${items}
      </ul>`
  );
}

/** Whether the car may be driven with it, in words. */
function driving({ model, lines, set }: Told, done: ReadonlySet<string>): Html | false {
  const open = lines
    .filter(({ id }) => set.leftOut.includes(id))
    .filter((line) => !isStoodIn(line, lines, done));
  const unsafe = open.filter(({ mustInclude }) => mustInclude);
  if (unsafe.length > 0)
    return html`<div class="alert">
      <p>${SAY.notDrivable}</p>
      ${unsafe.map(({ title }) => html`<p>${SAY.undone(title)}</p>`)}
    </div>`;
  const words = open.map(({ id }) => shownLine(model, id)?.mayDrive ?? MAY_DRIVE_WORDS.yes);
  return words.every((one) => one === MAY_DRIVE_WORDS.yes) && html`<p>${SAY.drivable}</p>`;
}

function takeForm({ model, set }: Told, spend: Spend): Html {
  return html`<form method="get" action="/o/${model.token}#answers">
    <input type="hidden" name="spend" value="${plainSum(spend.budgetCents ?? 0)}" /><button
      class="second"
      name="take"
      value="${set.kind}"
    >
      ${set.kind === 'drivable' ? SAY.take : SAY.takeParked}
    </button>
  </form>`;
}

function setPart(told: Told, spend: Spend): Html {
  const { model, lines, set } = told;
  const { formats, approval } = model;
  const chosen = lines.filter(({ id }) => set.chosen.includes(id));
  const left = (spend.budgetCents ?? 0) - set.priceCents;
  const done = new Set([
    ...set.chosen,
    ...[...approval.offer.standing.values()].flatMap(({ answer, lineId }) =>
      answer === 'approved' ? [lineId] : [],
    ),
  ]);
  const weighed = html`<details>
    <summary>${SAY.whyThese}</summary>
    <p>${SAY.weighed}</p>
    <ul>
      ${chosen.map(({ title, why }) => html`<li><b>${title}.</b> ${why}</li>`)}
    </ul>
  </details>`;
  return html`${
    chosen.length === 0
      ? html`<p><b>${SAY.nothingFits}</b></p>`
      : html`<ul>
            ${chosen.map(({ title }) => html`<li>${title}</li>`)}
          </ul>
          <p>
            <b>${SAY.comesTo(formats.money(set.priceCents))}</b
            >${left > 0 && html` ${SAY.left(formats.money(left))}`}
          </p>`
  }${waiting(told, done)}${driving(told, done)}${!set.proven && html`<p class="small">${SAY.notProven}</p>`}${chosen.length > 0 && html`${takeForm(told, spend)}${weighed}`}`;
}

function answerPart(model: OwnerModel, spend: Spend, found: Solved, budgetCents: number): Html {
  const money = (amount: number): string => model.formats.money(amount);
  const { lines } = spend;
  const safe = found.sets.find(({ kind }) => kind === 'drivable');
  const parked = found.sets.find(({ kind }) => kind !== 'drivable');
  const sum = money(budgetCents);
  const tooLittle =
    found.leastSafeCents === null ? SAY.neverSafe : SAY.tooLittle(sum, money(found.leastSafeCents));
  return html`<div class="ticket body">
    <h3>${SAY.forSum(sum)}</h3>
    ${
      safe === undefined
        ? html`<p class="alert">${tooLittle}</p>
            ${
              parked !== undefined &&
              html`<h4>${SAY.parked}</h4>
                ${setPart({ model, lines, set: parked }, spend)}`
            }`
        : html`${setPart({ model, lines, set: safe }, spend)}${
            parked !== undefined &&
            html`<details>
              <summary>${SAY.parkedMore}</summary>
              ${setPart({ model, lines, set: parked }, spend)}
            </details>`
          }`
    }
  </div>`;
}

/** The field for a sum, what fits it, and the steps from the least to all of it. */
export function spendPart(model: OwnerModel, spend: Spend): Html {
  const { formats, token } = model;
  const { typed, budgetCents, found } = spend;
  const agreed = [...model.approval.offer.standing.values()]
    .filter(({ answer }) => answer === 'approved')
    .reduce((sum, { shownTotalCents }) => sum + shownTotalCents, 0);
  const charged = model.approval.offer.contingencies.reduce(
    (sum, { trigger }) => sum + (trigger?.totalCents ?? 0),
    0,
  );
  const isWrong = typed !== null && budgetCents === null;
  const flaws = new Html(isWrong ? ' aria-invalid="true" aria-describedby="spend-wrong" autofocus' : '');
  const answered = budgetCents !== null && found !== null && spend.taken === null;
  return html`<section class="spend" id="spend">
    <h2>${SAY.heading}</h2>
    <p>${SAY.lead}${agreed > 0 && html` ${SAY.beside(formats.money(agreed + charged))}`}</p>
    <form method="get" action="/o/${token}#spend">
      ${isWrong && html`<p class="alert" id="spend-wrong" role="alert">${SAY.wrong(typed.slice(0, ECHO))}</p>`}
      <label class="name"
        >${SAY.label}<input
          type="text"
          name="spend"
          value="${(typed ?? '').slice(0, ECHO)}"
          inputmode="decimal"
          autocomplete="off"
          maxlength="${ECHO}"
          ${flaws}
      /></label>
      <button class="second">${SAY.look}</button>
    </form>
    ${found === null ? html`<p class="alert" role="status">${SAY.busy}</p>` : html`${answered && answerPart(model, spend, found, budgetCents)}${ladderPart(model, spend, found)}`}
  </section>`;
}

/** Above the answers, when they were filled in from a set. */
export function takenNote({ formats }: OwnerModel, { budgetCents }: Spend): Html {
  return html`<p role="status"><b>${SAY.taken(formats.money(budgetCents ?? 0))}</b> ${WORDS.promise}</p>`;
}
