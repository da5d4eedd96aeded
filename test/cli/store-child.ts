/**
 * A process for store.test.ts to kill: writes one version of the same files after the other into the
 * folder it is given, for ever, and says when the first version is done.
 */
import { openStore } from '../../src/cli/store.js';
import { contentOf, manifestOf, NAMES } from './store-content.js';

const [folder, first] = process.argv.slice(2) as [string, string];
for (let version = Number(first); ; version++) {
  const store = openStore(folder);
  for (const name of NAMES) store.put(name, contentOf(name, version));
  store.finish(manifestOf(version));
  if (version === Number(first)) process.stdout.write('going\n');
}
