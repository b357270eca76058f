/** A side named by things of the shop: which pulls it is made of, and what it may be called. */
import { begun } from '../../compare/index.ts';
import { InputError } from '../../errors.ts';
import {
  belongsTo,
  isSameGroup,
  SETTING_KINDS,
  type SettingName,
  settingIn,
} from '../../ladder/index.ts';
import type { AirStandard } from '../../pull/index.ts';
import type {
  BandRpm,
  Decision,
  Id,
  Ladder,
  Pull,
  PullbookRecord,
  SideWanted,
} from '../../record/index.ts';
import { listed } from '../../report/index.ts';
import { contextOf, type DayContext } from './context.ts';

/** Two settings closer than this were meant to be one. */
const SAME_SETTING = 1e-6;

export interface ChosenPull {
  readonly pull: Pull;
  readonly context: DayContext;
  /** Why it does not count; null: it does. */
  readonly why: string | null;
}

export interface ChosenSide {
  readonly wanted: SideWanted;
  /** What it may be called, from the shortest to the one that nothing else in the shop is called. */
  readonly names: readonly string[];
  readonly pulls: readonly ChosenPull[];
  /** Chosen pull by pull, so that they stay together. */
  readonly chosen: boolean;
  readonly bandRpm: BandRpm | null;
  readonly standard: AirStandard | null;
}

/** Reads sides of one request; days are asked for once. */
export class Sides {
  readonly #record: PullbookRecord;
  readonly #contexts = new Map<Id, Promise<DayContext>>();
  readonly #pulls = new Map<Id, Promise<readonly Pull[]>>();

  constructor(record: PullbookRecord) {
    this.#record = record;
  }

  contextOf(dayId: Id): Promise<DayContext> {
    return once(this.#contexts, dayId, () => contextOf(this.#record, dayId));
  }
  pullsOf(dayId: Id): Promise<readonly Pull[]> {
    return once(this.#pulls, dayId, () => this.#record.pulls.list({ dayId }));
  }

  /** @throws InputError  nothing of that name, or nothing in it that could be compared */
  async choose(wanted: SideWanted): Promise<ChosenSide> {
    const side = await this.#choose(wanted);
    if (wanted.kind !== 'paper' && side.pulls.length === 0)
      throw new InputError(
        begun(`${side.names[0]} has no pull yet, so there is nothing to compare.`),
      );
    return wanted.name === undefined ? side : { ...side, names: [wanted.name] };
  }

  async #choose(wanted: SideWanted): Promise<ChosenSide> {
    switch (wanted.kind) {
      case 'pulls':
        return this.#pullsById(wanted, wanted.pullIds);
      case 'rung': {
        const { ladder, context, pulls } = await this.#ladder(wanted.ladderId);
        const own = await this.#atSetting(pulls, ladder.setting, wanted.setting, ladder.name);
        const said = settingWords(ladder.setting, wanted.setting);
        return side(wanted, own, context, [said, `${dayName(context)}, ${said}`], ladder);
      }
      case 'ladder': {
        const { ladder, context, pulls } = await this.#ladder(wanted.ladderId);
        const said = `the ladder “${ladder.name}”`;
        const names = [said, `${dayName(context)}, ${said}`];
        return side(wanted, await this.#all(pulls), context, names, ladder);
      }
      case 'group': {
        const context = await this.contextOf(wanted.dayId);
        const own = (await this.pullsOf(wanted.dayId)).filter(({ group }) =>
          isSameGroup(group, wanted.group),
        );
        const names = [wanted.group, `${dayName(context)}, ${wanted.group}`];
        return side(wanted, await this.#all(own), context, names);
      }
      case 'day': {
        const context = await this.contextOf(wanted.dayId);
        const own = outsideGroups(await this.#all(await this.pullsOf(wanted.dayId)));
        return side(wanted, own, context, [dayWords(context)]);
      }
      case 'build':
        return this.#build(wanted, wanted.buildId);
      case 'left':
        return this.#left(wanted, wanted.buildId, wanted.use);
      case 'engine':
        return this.#engine(wanted, wanted.engineId);
      case 'paper':
        return {
          wanted,
          names: ['the curve from paper'],
          pulls: [],
          chosen: false,
          bandRpm: null,
          standard: null,
        };
    }
  }

  async #pullsById(wanted: SideWanted, ids: readonly Id[]): Promise<ChosenSide> {
    const pulls: Pull[] = [];
    for (const id of new Set(ids)) pulls.push(await this.#record.pulls.get(id));
    // Who chooses pulls one by one may well want them at part throttle.
    const own = (await this.#all(pulls)).map((one) =>
      one.pull.excludedBecause === null && !one.pull.aborted ? { ...one, why: null } : one,
    );
    const { context } = own[0]!;
    const name =
      pulls.length > 1
        ? `${pulls.length} pulls of ${dayName(context)}`
        : (pulls[0]!.fileName ?? `pull ${pulls[0]!.order + 1}`);
    const names = pulls.length > 1 ? [name] : [name, `${dayName(context)}, ${name}`];
    return { ...side(wanted, own, context, names), chosen: true };
  }

  async #ladder(id: Id) {
    const ladder = await this.#record.ladders.get(id);
    const context = await this.contextOf(ladder.dayId);
    const pulls = (await this.pullsOf(ladder.dayId)).filter((pull) =>
      belongsTo(ladder, pull, context.day.lambdaTarget),
    );
    return { ladder, context, pulls };
  }

  async #ofBuild(buildId: Id): Promise<readonly ChosenPull[]> {
    const days = await this.#record.days.list({ buildId });
    const pulls: ChosenPull[] = [];
    for (const { id } of days)
      pulls.push(...outsideGroups(await this.#all(await this.pullsOf(id))));
    return pulls;
  }

  async #build(wanted: SideWanted, buildId: Id): Promise<ChosenSide> {
    const build = await this.#record.builds.get(buildId);
    const pulls = await this.#ofBuild(buildId);
    return side(wanted, pulls, pulls.at(-1)?.context ?? null, [build.name]);
  }

  async #engine(wanted: SideWanted, engineId: Id): Promise<ChosenSide> {
    const engine = await this.#record.engines.get(engineId);
    const builds = await this.#record.builds.list({ engineId });
    for (const build of [...builds].reverse()) {
      const pulls = await this.#ofBuild(build.id);
      if (pulls.length > 0)
        return side(wanted, pulls, pulls.at(-1)!.context, [
          engine.name,
          `${engine.name}, ${build.name}`,
        ]);
    }
    return side(wanted, [], null, [engine.name]);
  }

  async #left(wanted: SideWanted, buildId: Id, use: string | undefined): Promise<ChosenSide> {
    const build = await this.#record.builds.get(buildId);
    const decided: { decision: Decision; ladder: Ladder }[] = [];
    for (const { id: dayId } of await this.#record.days.list({ buildId }))
      for (const ladder of await this.#record.ladders.list({ dayId }))
        for (const decision of await this.#record.decisions.list({ ladderId: ladder.id }))
          decided.push({ decision, ladder });
    const known = decided
      .filter(({ decision }) => use === undefined || decision.use === use)
      .sort((a, b) => a.decision.decidedAt.localeCompare(b.decision.decidedAt));
    const last = known.at(-1);
    if (last === undefined || last.decision.setting === null)
      throw new InputError(
        use === undefined || decided.length === 0
          ? `Nobody has decided yet which setting to leave in ${build.name}; decide on its ladder first.`
          : `Nobody has decided which setting to leave in ${build.name} for ${use}; decided was for ${listed([...new Set(decided.map(({ decision }) => decision.use))])}.`,
      );
    const { ladder, decision } = last;
    const pulls = (await this.#ofBuild(buildId)).map(({ pull }) => pull);
    const own = await this.#atSetting(pulls, ladder.setting, decision.setting!, build.name);
    const said = `${build.name} as left at ${settingWords(ladder.setting, decision.setting!)}`;
    return side(wanted, own, own[0]!.context, [said], ladder);
  }

  async #atSetting(
    pulls: readonly Pull[],
    name: SettingName,
    setting: number,
    of: string,
  ): Promise<readonly ChosenPull[]> {
    const all = await this.#all(pulls);
    const stood = ({ pull, context }: ChosenPull) =>
      settingIn(name, pull, context.day.lambdaTarget);
    const own = all.filter((one) => Math.abs((stood(one) ?? Number.NaN) - setting) < SAME_SETTING);
    if (own.length > 0) return own;
    const others = [...new Set(all.map(stood).filter((value) => value !== null))].sort(
      (a, b) => a - b,
    );
    throw new InputError(
      `No pull of ${of} was made at ${settingWords(name, setting)}; there are pulls at ${listed(others.map(String)) || 'no setting that is known'}.`,
      { found: String(setting), expected: others.join(', ') },
    );
  }

  async #all(pulls: readonly Pull[]): Promise<readonly ChosenPull[]> {
    const out: ChosenPull[] = [];
    for (const pull of pulls) {
      const atLoad = pull.loadPercent === null ? null : `it was made at ${pull.loadPercent} % load`;
      const why = pull.excludedBecause ?? (pull.aborted ? 'aborted' : atLoad);
      out.push({ pull, context: await this.contextOf(pull.dayId), why });
    }
    return out;
  }
}

function once<T>(kept: Map<Id, Promise<T>>, id: Id, ask: () => Promise<T>): Promise<T> {
  const known = kept.get(id);
  if (known !== undefined) return known;
  const asked = ask();
  kept.set(id, asked);
  return asked;
}

/** Pulls of a part test stand for the part, not for the day, wherever the day has pulls of no part test. */
function outsideGroups(pulls: readonly ChosenPull[]): readonly ChosenPull[] {
  if (pulls.every(({ pull }) => pull.group !== null)) return pulls;
  return pulls.map((one) =>
    one.pull.group === null || one.why !== null
      ? one
      : { ...one, why: `it belongs to the part test "${one.pull.group}"` },
  );
}

function side(
  wanted: SideWanted,
  pulls: readonly ChosenPull[],
  context: DayContext | null,
  short: readonly string[],
  ladder: Ladder | null = null,
): ChosenSide {
  const longest = short.at(-1)!;
  const days = [...new Set(pulls.map((one) => one.context.day))];
  const { engine, build } = context ?? { engine: null, build: null };
  const names =
    engine === null || longest.startsWith(engine.name)
      ? short
      : wanted.kind === 'build' || wanted.kind === 'left'
        ? [...short, `${engine.name}, ${longest}`]
        : [...short, `${build!.name}, ${longest}`, `${engine.name}, ${build!.name}, ${longest}`];
  return {
    wanted,
    names,
    pulls,
    chosen: false,
    bandRpm: ladder?.bandRpm ?? days.find(({ bandRpm }) => bandRpm !== null)?.bandRpm ?? null,
    standard: ladder?.standard ?? days.find(({ standard }) => standard !== null)?.standard ?? null,
  };
}

/** A day as a sentence calls it: its name by itself (`Spark ladder`) would read as a part. */
const dayWords = (context: DayContext) =>
  context.day.name
    ? `the day “${context.day.name}”`
    : context.day.date
      ? `the day of ${context.day.date}`
      : dayName(context);

export const dayName = ({ day }: DayContext) => day.name || day.date || 'a day without a name';

/** `28 degrees of lead`, `lambda 0.88`. */
export const settingWords = (name: SettingName, value: number) =>
  name === 'lead' ? `${value} degrees of lead` : `${SETTING_KINDS[name].word} ${value}`;

/** The shortest names that tell sides apart; sides of several engines always name theirs. */
export function namesOf(sides: readonly ChosenSide[]): string[] {
  const engines = new Set(
    sides.flatMap(({ pulls }) => pulls.map(({ context }) => context.engine.id)),
  );
  const most = Math.max(...sides.map(({ names }) => names.length));
  const at = (level: number) =>
    sides.map(({ names, wanted }) =>
      wanted.kind === 'engine' ? names[0]! : names[Math.min(level, names.length - 1)]!,
    );
  for (let level = engines.size > 1 ? most - 1 : 0; level < most; level++) {
    const names = at(level);
    if (new Set(names).size === names.length) return names;
  }
  const longest = sides.map(({ names }) => names.at(-1)!);
  return longest.map((name, i) => {
    const before = longest.slice(0, i).filter((other) => other === name).length;
    return before === 0 ? name : `${name} (${before + 1})`;
  });
}
