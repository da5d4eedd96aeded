import { Command, CommanderError } from '@commander-js/extra-typings';
import { alignCommand } from './align.js';
import { batchCommand } from './batch.js';
import { boxCommand } from './box.js';
import { cutterCommand } from './cutter.js';
import { decorCommand } from './decor.js';
import { type Environment, EXIT, type ExitCode, InputError, type Report } from './environment.js';
import { fitCommand } from './fit.js';
import { inspectCommand } from './inspect.js';
import { listCommand, showCommand } from './list.js';
import { lookCommand } from './look.js';
import { ownFlagsTold, withOwnFlags } from './own-flags.js';
import { pictureCommand } from './picture.js';
import { stampSheetCommand } from './stamp-sheet.js';
import { testcardCommand } from './testcard.js';
import { traceCommand } from './trace.js';

/** Runs one command line. Never throws, never exits. */
export async function runProgram(
  argv: readonly string[],
  environment: Environment,
): Promise<ExitCode> {
  let code: ExitCode = EXIT.good;
  const report: Report = c => {
    code = c;
  };
  const program = new Command('foldwright')
    .description('Treat boxes and their decorations: from a job file to files that cut and print.')
    .version(environment.version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'show this help')
    .showHelpAfterError('(add --help for the options and examples)')
    .addHelpText('after', HELP_AFTER)
    .addCommand(batchCommand(environment, report))
    .addCommand(lookCommand(environment, report))
    .addCommand(pictureCommand(environment, report))
    .addCommand(fitCommand(environment, report))
    .addCommand(boxCommand(environment, report))
    .addCommand(decorCommand(environment, report))
    .addCommand(listCommand(environment, report))
    .addCommand(showCommand(environment, report))
    .addCommand(inspectCommand(environment, report))
    .addCommand(alignCommand(environment, report))
    .addCommand(testcardCommand(environment, report))
    .addCommand(cutterCommand(environment, report))
    .addCommand(stampSheetCommand(environment, report))
    .addCommand(traceCommand(environment, report));
  // Settings do not reach commands that were added whole: each is told.
  for (const command of [program, ...program.commands]) {
    command.exitOverride().configureOutput({
      writeOut: text => environment.out(text.replace(/\n$/, '')),
      writeErr: text => environment.err(text.replace(/\n$/, '')),
      getOutHelpWidth: () => environment.columns,
      getErrHelpWidth: () => environment.columns,
    });
    command.showHelpAfterError('(add --help for the options and examples)');
  }
  if (argv.length === 0) {
    environment.out(program.helpInformation());
    return EXIT.badInput;
  }
  try {
    const plain = await withOwnFlags(argv, program.commands);
    await program.parseAsync(plain as string[], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) {
      const own = error.code === 'commander.unknownOption' ? await ownFlagsTold(argv) : '';
      if (own) environment.err(own);
      return error.exitCode === 0 ? EXIT.good : EXIT.badInput;
    }
    if (error instanceof InputError) {
      environment.err(error.message);
      return EXIT.badInput;
    }
    environment.err(ourFault(error, environment.version));
    return EXIT.ourFault;
  }
}

function ourFault(error: unknown, version: string): string {
  const detail = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return [
    `This is a fault of foldwright ${version}, not of yours. Please report it with these lines:`,
    detail,
  ].join('\n');
}

const HELP_AFTER = `
Examples:
  foldwright batch orchard-fair              the demo job, into out/orchard-fair
  foldwright box flip-lid --inside 6x2x1in   one box, sized by its inside
  foldwright fit ball --diameter 25mm --count 9   the boxes for a treat, least paper first
  foldwright list styles                     what boxes there are
  foldwright inspect out/**/*.svg            look before you cut

Exit codes: 0 good, 1 done but a check failed, 2 bad input, 3 a fault of ours.`;
