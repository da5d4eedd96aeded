/** `npm run bench`: every figure the project has an aim for. `!` marks those that miss it. */
import { mainJob } from './main-job.js';
import { table } from './measure.js';

const rows = [...(await mainJob())];
process.stdout.write(`${table(rows)}\n`);
