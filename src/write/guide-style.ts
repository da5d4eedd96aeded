/** How a guide looks in a browser: calm and roomy, light and dark, narrow and wide, on screen and on
 *  paper. Contrast of all that is read is 4.5 : 1 or more (WCAG 2.2, 1.4.3). */
import { PAPER_COLOURS } from './figure.js';

const DARK: typeof PAPER_COLOURS = {
  ink: '#f1e9dd',
  faint: '#bfb2a3',
  hair: '#5d5348',
  accent: '#f0a57e',
  card: '#2d2722',
  page: '#1e1a17',
};

const variables = (colours: typeof PAPER_COLOURS): string =>
  Object.entries(colours)
    .map(([name, value]) => `--${name}:${value};`)
    .join('');

export const guideStyle = (page: string): string => `
:root{color-scheme:light dark;${variables(PAPER_COLOURS)}}
@media screen and (prefers-color-scheme:dark){:root{${variables(DARK)}}}
.light{${variables(PAPER_COLOURS)}color-scheme:light;background:#fffdf9;color:var(--ink)}
*{box-sizing:border-box}
body{margin:0;background:var(--page);color:var(--ink);
font:400 1rem/1.5 Guide,ui-rounded,system-ui,sans-serif}
svg text{font-family:Guide,ui-rounded,system-ui,sans-serif}
main{max-width:62rem;margin:0 auto;padding:2.5rem 1.25rem 3rem}
h1{font-size:clamp(1.9rem,5vw,3rem);line-height:1.15;margin:.1rem 0 .5rem;overflow-wrap:anywhere}
h2{font-size:1.5rem;line-height:1.25;color:var(--accent);margin:2.6rem 0 .6rem}
h3{font-size:1rem;margin:1rem 0 .15rem}
p{margin:.3rem 0 .8rem}
.job{color:var(--accent);font-weight:700;margin:0}
.lines,.quiet{color:var(--faint)}
svg{display:block;max-width:100%;height:auto;margin:0 auto}
.card{background:var(--card);border-radius:.8rem;padding:1rem}
.top{
display:grid;gap:1.5rem 2rem;
grid-template-columns:repeat(auto-fit,minmax(min(20rem,100%),1fr));margin-top:1.5rem}
.top h2{margin-top:0}
.top .card,.steps .card{display:grid;place-items:center}
.steps .card svg{height:11rem}
.top .card svg{width:100%;max-height:24rem}
.top ul{list-style:none;padding:0;margin:.2rem 0 .6rem}
.scroll{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
th,td{text-align:start;padding:.35rem .9rem .35rem 0;
border-bottom:1px solid var(--hair);vertical-align:middle}
th{font-weight:400;color:var(--faint)}
tbody th{color:var(--ink)}
td:first-child{width:3.4rem}
td svg{width:2.6rem;height:2rem}
.legend{display:flex;flex-wrap:wrap;gap:.4rem 1.6rem;list-style:none;padding:0;margin:.6rem 0}
.legend li{display:flex;gap:.6rem;align-items:center}
.legend svg{width:2.9rem;height:.9rem;flex:none}
.nets{display:grid;gap:1.5rem;grid-template-columns:repeat(auto-fit,minmax(min(26rem,100%),1fr))}
.nets figure,.steps figure{margin:0}
.light{border-radius:.8rem;padding:1rem}
.steps{
display:grid;gap:1.6rem 1.4rem;
grid-template-columns:repeat(auto-fill,minmax(min(16.5rem,100%),1fr));list-style:none;
padding:0;counter-reset:step}
.steps>li{counter-increment:step}
.steps .wide{grid-column:1/-1}
.steps .said{display:grid;grid-template-columns:2.1rem 1fr;gap:.2rem .4rem;margin-top:.6rem}
.steps .said::before{
content:counter(step);width:1.75rem;height:1.75rem;border-radius:50%;
background:var(--accent);color:var(--page);font-weight:700;display:grid;place-items:center;
font-size:.95rem}
.steps .said p{margin:.1rem 0}
.steps .said ol{grid-column:2;margin:0;padding-inline-start:1.3rem}
.long ol{columns:2 14rem}
.hand{columns:2 20rem;column-gap:2.5rem;padding-inline-start:1.4rem}
.hand ul{padding-inline-start:1rem;list-style:none}
.scale{display:flex;flex-wrap:wrap;gap:1rem 2rem;align-items:center}
.scale figure{margin:0;display:flex;gap:.5rem;font-size:.8rem;color:var(--faint);line-height:3.2mm}
.scale svg{max-width:none;margin:0}
.scale p{flex:1 1 16rem;margin:0}
.care ul{
display:grid;gap:.4rem 2rem;
grid-template-columns:repeat(auto-fit,minmax(min(22rem,100%),1fr));
padding-inline-start:1.2rem;margin:.4rem 0}
.care h2{margin:.2rem 0 .4rem}
.care{margin-top:2.6rem;padding:1.2rem 1.5rem}
@media screen{
/* A bar on a screen tells nothing of a printer. */
.on-paper{display:none}
.scroll table{min-width:34rem}
.nets .scroll svg{min-width:44rem}
}
@media print{
@page{size:${page};margin:14mm}
body{font-size:9.6pt;line-height:1.4}
main{max-width:none;padding:0}
h1{font-size:26pt}
h2{font-size:14pt;margin-top:1.6rem;break-after:avoid}
.card,.light{print-color-adjust:exact;-webkit-print-color-adjust:exact}
.steps{grid-template-columns:repeat(3,1fr)}
.steps>li,tr,.nets figure,.care,.scale,.on-paper{break-inside:avoid}
section>p,.legend{break-inside:avoid;break-after:avoid}
.nets svg{max-height:180mm}
.nets figure:not(:only-child) svg{max-width:120mm}
th,td{padding:.1rem .9rem .1rem 0}
td svg{height:1.3rem}
.scroll{overflow:visible}
.top{grid-template-columns:1.2fr 1fr}
}
`;
