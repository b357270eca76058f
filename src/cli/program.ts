import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { sentenceOf, UsageError } from '../errors.ts';
import type { Language } from '../report/index.ts';
import { AIR_STANDARDS, type AirStandard, standardNamed } from '../trade/index.ts';
import type { CompareFlags } from './compare.ts';
import type { CurveFlags } from './curve.ts';
import type { HandOverFlags } from './handover.ts';
import type { ImportFlags } from './import/index.ts';
import { type CommandIo, EXIT, plain } from './io.ts';
import type { LadderFlags } from './ladder.ts';
import type { LookFlags } from './look.ts';
import type { PartFlags } from './parttest.ts';
import type { RecordFlags } from './record.ts';
import type { ReplayFlags } from './replay.ts';
import type { ServeFlags } from './serve.ts';
import type { SheetFlags } from './sheet.ts';
import type { ShopFileFlags } from './shopFile.ts';
import type { UseFlags } from './use.ts';
import type { VerifyFlags } from './verify.ts';
import { version } from './version.ts';

const LANGUAGES = ['en', 'de'] as const satisfies readonly Language[];

const EXAMPLES = `
Examples:
  pullbook look run-07.csv                       what was understood of a run file
  pullbook curve --inertia "0.42 kg m^2" *.csv   corrected curves with their 95 % bands
  pullbook ladder day-a/session.json             where the knee is, what to leave in it, what to do next
  pullbook ladder --json */session.json          the same for programs, one object a line
  pullbook ladder day-b --table map.csv          lead and lambda at once, and their table by speed
  pullbook compare before/session.json after/session.json   what was gained and given up, from where to where
  pullbook use before/session.json after/session.json --use circuit --vehicle vehicle.json   which suits this owner
  pullbook compare day:2026-05-17@28 day:2026-05-17@30   two rungs in the shop
  pullbook use "build:As it came in" "build:Refresh 2026"   which build of the shop suits which use
  pullbook parttest --gain 1                     how many pulls show a gain of 1 %, and in which order
  pullbook sheet build.json                      what the parts of a build add up to, and which do not fit
  pullbook handover "Six/Refresh" --out six.pdf six.zip   what is handed to the owner, kept in the shop
  pullbook replay "Six/Refresh" --out frames      its curve in the time of its pull, as pictures for a film
  pullbook verify hand-over.zip                  whether every figure of a hand-over still follows
  pullbook import --engine "Inline six" *.csv    into the shop's record
  pullbook export shop.zip                       the shop for another machine; there: pullbook take shop.zip
  pullbook serve --open                          the workbook in a browser

Exit codes: 0 all done, 1 an input was refused, 2 wrong usage.
Pullbook records and advises; it never replaces the cell's own shutdowns.
`;

const OF_THE_SHOP =
  'thing in the shop (engine:NAME, build:NAME, left:BUILD, day:DATE, day:DATE@28, ladder:DAY, group:DAY/a, pull:FILE)';

/**
 * Runs the command with these arguments (without node and script) and answers its exit code: 0 done, 1 an input was
 * refused, 2 wrong usage. Each command's own module is loaded only when it runs.
 */
export async function run(args: readonly string[], io: CommandIo): Promise<number> {
  let code: number = EXIT.done;
  const act =
    <A extends unknown[]>(action: (...input: A) => Promise<number>) =>
    async (...input: A) => {
      code = await action(...input);
    };
  try {
    await programFor(io, act).parseAsync([...args], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.usage;
    if (io.signal.aborted) {
      io.err('pullbook: stopped; what was not finished was not stored\n');
      return EXIT.refused;
    }
    io.err(`pullbook: ${plain(sentenceOf(error))}\n`);
    return error instanceof UsageError ? EXIT.usage : EXIT.refused;
  }
}

function standardOf(text: string): AirStandard {
  const found = standardNamed(text);
  if (found === undefined)
    throw new InvalidArgumentError(`Expected one of ${AIR_STANDARDS.join(', ')}.`);
  return found;
}

function percentOf(text: string): number {
  const value = Number(text.replace(/\s*%$/, ''));
  if (!(value > 0 && value <= 50)) throw new InvalidArgumentError('Expected per cent, such as 1.');
  return value;
}

function fpsOf(text: string): number {
  const value = Number(text);
  if (!(value >= 1 && value <= 120)) throw new InvalidArgumentError('Expected 1 to 120.');
  return value;
}

type Act = <A extends unknown[]>(
  action: (...input: A) => Promise<number>,
) => (...input: A) => Promise<void>;

function programFor(io: CommandIo, act: Act): Command {
  const program = new Command('pullbook')
    .description(
      'The working book of a person who builds engines and proves them on a dynamometer.',
    )
    .version(version())
    .exitOverride()
    .configureOutput({ writeOut: io.out, writeErr: io.err, getOutHelpWidth: () => io.columns })
    .showHelpAfterError('(pullbook --help shows what there is)')
    .addHelpText('after', EXAMPLES);
  const command = (name: string, description: string) =>
    program.command(name).description(description);
  const json = () => new Option('--json', 'one JSON object a line instead of tables');
  const units = () =>
    new Option('--units <system>', 'units of the tables').choices(['us', 'metric']).default('us');
  const data = () =>
    new Option(
      '--data <folder>',
      'folder of the record (else PULLBOOK_HOME, else your data folder)',
    );
  const standard = () =>
    new Option('--standard <name>', `standard air: ${AIR_STANDARDS.join(', ')}`).argParser(
      standardOf,
    );
  const correctBoosted = () =>
    new Option('--correct-boosted', 'correct a boosted or nitrous engine all the same');

  command('look', 'say what was understood of run files')
    .argument('<file...>', 'run files: text, .xlsx or Parquet')
    .addOption(units())
    .addOption(json())
    .action(
      act(async (files: string[], flags: LookFlags) =>
        (await import('./look.ts')).look(files, flags, io),
      ),
    );

  command('curve', 'torque and power in standard air, with their 95 % bands')
    .argument('<file...>', 'run files: text, .xlsx or Parquet')
    .addOption(standard().default('SAE J1349'))
    .option('--inertia <quantity>', 'all that turns with the crank, such as "0.42 kg m^2"')
    .option('--lag <quantity>', 'time constant of the torque sensor, such as "0.08 s"')
    .option('--ratio <number>', 'brake turns per crank turn')
    .option(
      '--torque-is <air>',
      'what the torque column holds where its header is silent: observed (taken unless said), or a standard',
    )
    .addOption(
      new Option(
        '--torque-inertia <word>',
        'whether that torque has the inertia put back (out unless said)',
      ).choices(['in', 'out']),
    )
    .option('--displacement <quantity>', 'for BMEP and VE, such as "5.445 L"')
    .option('--fuel <name>', 'for lambda and fuel flow', 'gasoline')
    .addOption(
      new Option('--aspiration <kind>', 'a boosted engine shows observed figures first')
        .choices(['natural', 'boosted', 'nitrous'])
        .default('natural'),
    )
    .addOption(correctBoosted())
    .option('--pressure <quantity>', 'air pressure, absolute, where the file has none')
    .option('--temperature <quantity>', 'air temperature where the file has none')
    .option('--humidity <quantity>', 'relative humidity where the file has none')
    .addOption(units())
    .addOption(json())
    .action(
      act(async (files: string[], flags: CurveFlags) =>
        (await import('./curve.ts')).curve(files, flags, io),
      ),
    );

  command('ladder', 'gain of each step, best, knee, limit, the setting for each use, the next move')
    .argument(
      '<session...>',
      'session files (session/1, session/2), or folders with a session.json',
    )
    .addOption(
      new Option(
        '--setting <what>',
        'what the pulls step, else what the session says or shows',
      ).choices(['lead', 'lambda', 'both']),
    )
    .option(
      '--table <file>',
      'write lead and lambda by speed as CSV, or by its ending .xlsx or .parquet (steps both)',
    )
    .option('--use <name>', 'the use whose table is written, else that of the session')
    .addOption(standard())
    .addOption(correctBoosted())
    .addOption(units())
    .addOption(json())
    .action(
      act(async (files: string[], flags: LadderFlags) =>
        (await import('./ladder.ts')).ladder(files, flags, io),
      ),
    );

  command('compare', 'what was gained and given up, by speed, the second over the first')
    .argument(
      '<side...>',
      `two or more of: session file, run file, ${OF_THE_SHOP}; or one session with groups "a" and "b"`,
    )
    .option('--band <speeds>', 'speeds over which mean power is compared, such as 4500-7000')
    .addOption(standard())
    .addOption(correctBoosted())
    .addOption(data())
    .addOption(units())
    .addOption(json())
    .action(
      act(async (files: string[], flags: CompareFlags) =>
        (await import('./compare.ts')).compare(files, flags, io),
      ),
    );

  command(
    'use',
    'which build suits a use, and what each does in a vehicle, the others over the first',
  )
    .argument('<side...>', `a build each: session file, run file, ${OF_THE_SHOP}`)
    .option('--use <name>', 'a use to choose, or a typed one (format use/1); else all of them')
    .option('--log <file>', 'a logged drive: its time by engine speed is the use')
    .option('--vehicle <file>', 'the vehicle (format vehicle/1)')
    .option('--over <what>', 'distance or stretch of speed that counts', '1/4 mile')
    .option('--above <speed>', 'engine speed about which the use is dragged, such as 5200')
    .option('--band <speeds>', 'speeds over which the level of the pulls is compared')
    .addOption(standard())
    .addOption(correctBoosted())
    .addOption(data())
    .addOption(units())
    .addOption(json())
    .action(
      act(async (files: string[], flags: UseFlags) =>
        (await import('./use.ts')).use(files, flags, io),
      ),
    );

  command(
    'parttest',
    'a fair test of a part: how many pulls of each, in which order, and when to stop',
  )
    .argument(
      '[made]',
      'the pulls made so far: a session with groups "a" and "b", or a day of the shop (day:2026-05-17)',
    )
    .option('--gain <percent>', 'gain of mean power to be seen [%]', percentOf)
    .option(
      '--repeatability <percent>',
      'how far pulls of one setting differ on the cell, 1 sd [%] (else of --cell, else as usual)',
      percentOf,
    )
    .option('--cell <name>', 'cell of the shop, whose repeated pulls say how far they differ')
    .addOption(
      new Option(
        '--order <kind>',
        'A B B A by turns; drawn, once both have run clean; or half of A, all of B, half of A',
      )
        .choices(['by-turns', 'drawn', 'a-b-a'])
        .default('by-turns'),
    )
    .option('--ran-clean', 'both have run clean before')
    .option('--seed <number>', 'of a drawn order', Number, 0)
    .addOption(data())
    .addOption(units())
    .addOption(json())
    .action(
      act(async (made: string | undefined, flags: PartFlags) =>
        (await import('./parttest.ts')).partTest(made, flags, io),
      ),
    );

  command('sheet', 'what follows from a build sheet: figures, checks, what to measure next')
    .argument('<file...>', 'build files (format sheet/1), or the same as a table: .csv, .xlsx')
    .option('--use <name>', 'use whose windows hold (else the one that the sheet names)')
    .option(
      '--windows <file>',
      'the shop’s own windows (format windows/1), before the shipped ones',
    )
    .option('--out <file>', 'write the sheet as .json, .csv or .xlsx, by the ending')
    .addOption(units())
    .addOption(json())
    .action(
      act(async (files: string[], flags: SheetFlags) =>
        (await import('./sheet.ts')).sheet(files, flags, io),
      ),
    );

  command('handover', 'freeze what the shop says of a build, as bundle, report or page')
    .argument('<build>', 'build of the shop: its name, ENGINE/BUILD, or its id')
    .requiredOption(
      '--out <file...>',
      'new files: .zip the bundle, .pdf the report, .html the page for the owner',
    )
    .option('--against <build>', 'build it is held against, or "none" (else the one before it)')
    .addOption(
      new Option('--language <code>', 'of report and page (English unless said)').choices(
        LANGUAGES,
      ),
    )
    .addOption(
      new Option('--size <paper>', 'of the report (as its units suggest)').choices([
        'letter',
        'a4',
      ]),
    )
    .option('--notes <text>', 'for the owner, in your own words')
    .option('--by <name>', 'who hands it over')
    .addOption(standard())
    .addOption(data())
    .addOption(
      new Option('--units <system>', "units of the report (the shop's unless said)").choices([
        'us',
        'metric',
      ]),
    )
    .addOption(json())
    .action(
      act(async (build: string, flags: HandOverFlags) =>
        (await import('./handover.ts')).handOver(build, flags, io),
      ),
    );

  command('replay', 'the curve of a build in the time of its pull, as numbered pictures for a film')
    .argument('<build>', 'build of the shop: its name, ENGINE/BUILD, or its id')
    .requiredOption('--out <folder>', 'new folder for the pictures')
    .option('--against <build>', 'build drawn beside it, or "none" (else the one before it)')
    .addOption(
      new Option('--size <shape>', '1920×1080, 3840×2160, 1080×1080 or 1080×1920')
        .choices(['screen', 'large', 'square', 'story'])
        .default('screen'),
    )
    .addOption(
      new Option('--fps <number>', 'pictures a second, 1 to 120').argParser(fpsOf).default(30),
    )
    .addOption(
      new Option('--language <code>', 'of the pictures (English unless said)').choices(LANGUAGES),
    )
    .addOption(standard())
    .addOption(data())
    .addOption(
      new Option('--units <system>', "units of the pictures (the shop's unless said)").choices([
        'us',
        'metric',
      ]),
    )
    .addOption(json())
    .action(
      act(async (build: string, flags: ReplayFlags) =>
        (await import('./replay.ts')).replay(build, flags, io),
      ),
    );

  command(
    'verify',
    'compute a hand-over again from the recordings in it, and say what does not follow',
  )
    .argument('<file...>', 'hand-over bundles (.zip) or reports (.pdf)')
    .addOption(json())
    .action(
      act(async (files: string[], flags: VerifyFlags) =>
        (await import('./verify.ts')).verify(files, flags, io),
      ),
    );

  command('import', 'take run files or session files into the record')
    .argument('<file...>', 'run files and session files')
    .option('--engine <name>', 'engine they belong to (made where there is none of that name)')
    .option('--build <name>', 'build of that engine (else its newest)')
    .option('--day <name>', 'test day, by name or ISO date')
    .option('--cell <name>', 'cell that recorded them', 'cell')
    .addOption(data())
    .addOption(json())
    .action(
      act(async (files: string[], flags: ImportFlags) =>
        (await import('./import/index.ts')).importFiles(files, flags, io),
      ),
    );

  command('export', 'write the whole shop, or one engine with all under it, to a zip')
    .argument('<file>', 'new file')
    .option('--engine <name>', 'only this engine')
    .addOption(data())
    .action(
      act(async (file: string, flags: ShopFileFlags) =>
        (await import('./shopFile.ts')).exportTo(file, flags, io),
      ),
    );

  command('take', 'take a shop, or an engine, from such a zip into the record, in one change')
    .argument('<file>', 'a zip that pullbook export made')
    .option('--look', 'only say what would come in')
    .addOption(data())
    .addOption(json())
    .action(
      act(async (file: string, flags: ShopFileFlags) =>
        (await import('./shopFile.ts')).take(file, flags, io),
      ),
    );

  command('backup', 'write a whole, consistent copy of the record, also while it is in use')
    .argument('<file>', 'new file')
    .addOption(data())
    .action(
      act(async (file: string, flags: RecordFlags) =>
        (await import('./record.ts')).backup(file, flags, io),
      ),
    );

  command('restore', 'put a backup in the place of the record; what stood there is kept beside it')
    .argument('<file>', 'a backup')
    .addOption(data())
    .action(
      act(async (file: string, flags: RecordFlags) =>
        (await import('./record.ts')).restore(file, flags, io),
      ),
    );

  command('serve', 'serve the workbook to a browser on this machine')
    .option(
      '--port <number>',
      'port to listen on; 0: any free one (else the usual one where it is free)',
    )
    .option(
      '--host <address>',
      'address to listen on; anything but loopback opens the record to the network',
    )
    .option('--name <name...>', 'further names under which browsers may address it')
    .option('--max-upload <MB>', 'largest run file taken [MB]')
    .option('--open', 'open a browser where there is a screen')
    .option('--no-demo', 'do not load the demo shop into a new record')
    .addOption(data())
    .action(act(async (flags: ServeFlags) => (await import('./serve.ts')).serve(flags, io)));

  return program;
}
