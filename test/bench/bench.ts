/** `npm run bench`: every figure the project has an aim for. `!` marks those that miss it. With a name,
 *  `npm run bench -- styles`, only those. */

import { cutting } from './cutting.js';
import { fit } from './fit.js';
import { guide } from './guide.js';
import { letters } from './letters.js';
import { mainJob } from './main-job.js';
import { type Row, table } from './measure.js';
import { motifs } from './motifs.js';
import { order } from './order.js';
import { own } from './own-art.js';
import { patterns } from './patterns.js';
import { preview } from './preview.js';
import { scan } from './scan.js';
import { styles } from './styles.js';

const PARTS: Readonly<Record<string, () => Promise<Row[]>>> = {
  'main-job': mainJob,
  styles,
  motifs,
  'own-art': own,
  patterns,
  letters,
  cutting,
  order,
  fit,
  scan,
  guide,
  preview,
};

const asked = process.argv.slice(2);
for (const [name, measure] of Object.entries(PARTS)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  process.stdout.write(`${table(await measure())}\n`);
}
