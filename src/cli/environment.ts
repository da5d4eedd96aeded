/** What the commands may know of the outside world; tests hand in their own. */
export interface Environment {
  readonly version: string;
  readonly cwd: string;
  /** Folder with the presets that come with the program. */
  readonly presetsDir: string;
  /** One line (or several) to standard output. */
  out(text: string): void;
  /** The same to standard error. */
  err(text: string): void;
  /** A terminal to draw progress on; absent off a terminal. */
  readonly progressStream: NodeJS.WriteStream | undefined;
  readonly columns: number;
  /** Asks the person at the terminal: the line, or nothing if the person would rather stop. Absent off
   *  a terminal. */
  readonly ask?: ((question: string) => Promise<string | undefined>) | undefined;
}

/** 0 good, 1 done but a check failed, 2 bad input, 3 a fault of ours. */
export const EXIT = { good: 0, checkFailed: 1, badInput: 2, ourFault: 3 } as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** A command says its exit code through this, since commander's actions return nothing. */
export type Report = (code: ExitCode) => void;

/** Bad input from a person: printed as it stands, exit code 2. */
export class InputError extends Error {
  override readonly name = 'InputError';
}
