/** `npm run tip-table` puts the table of tip error into DEVELOPERS.md. */
import { readFileSync, writeFileSync } from 'node:fs';
import { DEVELOPERS, tipRows, withRows } from './rows.js';

writeFileSync(DEVELOPERS, withRows(readFileSync(DEVELOPERS, 'utf8'), tipRows()));
