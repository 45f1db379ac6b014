import { createHash } from 'node:crypto';

/** Dim by the owner's own setting. The names are those of the shop's own pages. */
const DIM =
  '--ink:#f1f4f8;--ink-2:#c2ccda;--stock:#1a1114;--sheet:#1b2638;--edge:#7e8da5;--carbon:#bca9ff;--on-ink:#0c1422;--focus:#ffc91f';

const STYLES = `
@property --maj{syntax:"<integer>";inherits:true;initial-value:0}
@property --min{syntax:"<integer>";inherits:true;initial-value:0}
:root{color-scheme:light dark;--ink:#101b30;--ink-2:#35435c;--stock:#f8e6ea;--sheet:#fff;--edge:#6b7a90;--carbon:#4b2aa8;--on-ink:#fff;--focus:#4b2aa8}
@media (prefers-color-scheme:dark){:root{${DIM}}}
@media (prefers-contrast:more){:root{--ink-2:var(--ink);--edge:var(--ink)}}
*{box-sizing:border-box;margin:0}
html{font:1.0625rem/1.45 ui-sans-serif,system-ui,-apple-system,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif;-webkit-text-size-adjust:100%;background:var(--stock);color:var(--ink);scroll-padding:16px 0 110px}
body{max-width:600px;margin:0 auto;padding:18px 16px 40px;overflow-wrap:break-word}
header{display:flex;flex-wrap:wrap;justify-content:space-between;gap:4px 16px;align-items:baseline;font-weight:750;border-bottom:3px double;padding-bottom:10px}
a{color:var(--carbon);font-weight:650}
header a,.links a{display:inline-block;padding:13px 0;min-height:44px}
header a{margin:-13px 0}
:focus-visible{outline:3px solid var(--focus);outline-offset:2px}
h1{font-size:1.72rem;line-height:1.12;letter-spacing:-.022em;font-weight:800;margin:22px 0 10px;text-wrap:balance}
h2,h3{font-size:1.13rem;line-height:1.25;font-weight:750}
.group{font-size:1.25rem;margin:26px 0 -6px}.group+p{margin-top:14px}
main>p,form>p{color:var(--ink-2);margin:0 0 10px;text-wrap:pretty}
main p strong{color:var(--ink)}
.small{font-size:.9375rem}
.alert{border:3px solid;background:var(--sheet);padding:12px 14px;border-radius:3px;font-weight:650}
main>.alert,form>.alert{color:var(--ink);margin:14px 0}
.ticket{border:1.5px solid var(--edge);border-radius:4px;background:var(--sheet);padding:0;margin:16px 0;min-width:0}
.body{padding:14px 16px 15px;display:grid;gap:8px}
.body p{color:var(--ink-2)}
.body b{color:var(--ink)}
.head{display:flex;justify-content:space-between;gap:14px;align-items:baseline}
.head b{white-space:nowrap;font-size:1.13rem}
.body .verdict{display:flex;align-items:center;gap:9px;font-weight:700;color:var(--ink);justify-self:start}
.verdict svg{width:24px;height:24px;flex:none;fill:none;stroke:currentColor;stroke-width:2.2}
.verdict .ink{fill:currentColor}.verdict .none{stroke:none}.verdict .dots{stroke-dasharray:3.4 3}
.body .unsafe{background:var(--ink);color:var(--on-ink);padding:5px 12px 5px 9px;border-radius:3px}
ul{margin:0;padding:0 0 0 1.15em;color:var(--ink-2)}
.figures{display:grid;grid-template-columns:repeat(3,auto);border:1.5px solid var(--edge);border-radius:3px;margin-top:4px}
.figures div{padding:7px 10px 8px;display:flex;flex-direction:column}
.figures div+div{border-left:1.5px solid var(--edge)}
dt{color:var(--ink-2);font-size:.9375rem;line-height:1.25}
.figures dd{margin:auto 0 0;font-weight:700;white-space:nowrap}
.photos{display:flex;flex-wrap:wrap;gap:8px}
.photos img{width:104px;height:104px;object-fit:cover;border-radius:3px;display:block;background:var(--edge)}
.pick{border:0;padding:0;min-width:0;border-top:2px dotted var(--edge);position:relative}
.pick::before,.pick::after{content:"";position:absolute;top:-9px;width:16px;height:16px;border-radius:50%;background:var(--stock);border:1.5px solid var(--edge)}
.pick::before{left:-10px;clip-path:inset(0 0 0 9px)}.pick::after{right:-10px;clip-path:inset(0 9px 0 0)}
.pick div{display:grid;grid-template-columns:repeat(3,1fr);gap:8px;padding:14px 16px 16px}
.pick label{display:flex;align-items:center;justify-content:center;gap:6px;min-height:56px;padding:4px 2px;border:2px solid var(--edge);border-radius:4px;font-size:1rem;font-weight:700;white-space:nowrap;line-height:1.15;cursor:pointer}
input[type=radio]{appearance:none;color:inherit;width:18px;height:18px;margin:0;border:2px solid;border-radius:50%;flex:none}
input[type=radio]:checked{border-width:6px}
.pick label:has(:checked){background:var(--ink);color:var(--on-ink);border-color:var(--ink)}
.pick label:has(:focus-visible){outline:3px solid var(--focus);outline-offset:2px}
.pick input:focus-visible{outline:0}
legend{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.total{display:flex;flex-wrap:wrap;justify-content:space-between;align-items:baseline;gap:0 14px;border-top:3px double;margin-top:20px;padding:10px 0 8px;font-weight:750;font-size:1.13rem}
form>.total{position:sticky;bottom:0;background:var(--stock)}
.total output,.total b{font-size:1.9rem;line-height:1.2;letter-spacing:-.03em;font-weight:800}
.live{--maj:round(down,(var(--sum) + .25)/100,1);--min:calc(var(--sum) - var(--maj)*100);counter-reset:maj var(--maj) min var(--min)}
.sum{display:grid;grid-template-columns:1fr auto;gap:5px 14px}
.sum dt{font-size:1rem}.sum dd{margin:0;text-align:right}
label.name{display:block;font-weight:700;margin:16px 0 0}form>label.name+p{margin-top:10px}
input[type=text],input[type=date]{display:block;width:100%;min-height:56px;margin-top:6px;padding:8px 12px;font:inherit;font-weight:400;color:inherit;background:var(--sheet);border:2px solid var(--edge);border-radius:4px}
button{width:100%;min-height:60px;margin:14px 0 12px;background:var(--ink);color:var(--on-ink);border:2px solid var(--ink);border-radius:4px;font:inherit;font-weight:750;font-size:1.18rem;cursor:pointer}
button.second{background:none;color:inherit;min-height:56px;margin-top:0;font-size:1.0625rem}
.mark{font-size:.8125rem;color:var(--ink-2)}
@supports not ((width:round(down,1px,1px)) and (selector(:has(a)))){form>.live{display:none}}
@media (max-width:359px){.body,.pick div{padding-left:11px;padding-right:11px}.pick div{gap:7px}.figures div{padding-left:7px;padding-right:5px}.figures dd{font-size:1rem}.pick label{flex-direction:column;gap:3px}}
@media print{:root{--ink:#000;--ink-2:#000;--stock:#fff;--sheet:#fff;--edge:#000;--carbon:#000;--on-ink:#000;color-scheme:light}button,.links,form>.live{display:none}.ticket{break-inside:avoid}.body .unsafe{border:2px solid}form>.total{position:static}}
`;

/** Rules without the white space that only people read. */
const STYLE = STYLES.trim().replace(/\n/g, '').replace(/;\}/g, '}');

const hashOf = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
const STYLE_HASH = hashOf(STYLE);

export interface PageStyle {
  readonly text: string;
  /** The content policy under which exactly these rules and nothing else is let in: no script, no other origin. */
  readonly policy: string;
}

/** The rules of a page; `own` are those that hold for this estimate only. */
export function pageStyle(own = ''): PageStyle[] {
  return [{ text: STYLE, policy: STYLE_HASH }, ...(own === '' ? [] : [{ text: own, policy: hashOf(own) }])];
}

export function contentPolicy(styles: readonly PageStyle[]): string {
  return [
    "default-src 'none'",
    `style-src ${styles.map(({ policy }) => policy).join(' ')}`,
    "img-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ].join('; ');
}
