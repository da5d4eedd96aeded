/** The contact sheet's page: sorts and filters its cards. */
import { filled } from '../../words/filled.js';

const cards = [...document.querySelectorAll<HTMLElement>('article')];
const place = document.getElementById('cards')!;
const shown = document.getElementById('shown')!;
const control = (id: string) => document.getElementById(id) as HTMLInputElement | HTMLSelectElement;

const number = (card: HTMLElement, key: string) => Number(card.dataset[key]);
const order = (a: HTMLElement, b: HTMLElement) => number(a, 'order') - number(b, 'order');
const most = (key: string) => (a: HTMLElement, b: HTMLElement) =>
  number(b, key) - number(a, key) || order(a, b);
const SORTS: Readonly<Record<string, (a: HTMLElement, b: HTMLElement) => number>> = {
  order,
  name: (a, b) =>
    a.dataset.name!.localeCompare(b.dataset.name!, undefined, { numeric: true }) || order(a, b),
  size: most('size'),
  sheets: most('sheets'),
  seconds: most('seconds'),
};

function apply() {
  const wanted = control('find').value.toLowerCase().split(/\s+/).filter(Boolean);
  const style = control('style').value;
  const stock = control('stock').value;
  let count = 0;
  for (const card of cards) {
    const { words, style: own, stocks } = card.dataset;
    const fits =
      wanted.every(w => words!.includes(w)) &&
      (style === '' || own === style) &&
      (stock === '' || stocks!.split(' ').includes(stock));
    card.hidden = !fits;
    if (fits) count++;
  }
  place.append(...cards.sort(SORTS[control('sort').value] ?? order));
  const said = { count, all: cards.length };
  shown.textContent = count === cards.length ? '' : filled(shown.dataset.words!, said);
}

for (const id of ['find', 'style', 'stock', 'sort']) control(id).addEventListener('input', apply);
document.querySelector('form')!.addEventListener('submit', event => event.preventDefault());
apply();
