import { belongsTo, settingIn } from '../../../src/ladder/index.ts';
import { SETTING_KINDS } from '../../../src/ladder/kinds.ts';
import type { DayPage, DaySummary, ShopSummary, SideWanted } from '../../api/types.gen.ts';
import { dayLabel } from '../../shell/places.ts';
import { count } from '../../shell/words.ts';
import { leadsInWords } from '../engine-words.ts';
import { nameOfLadder, settingText } from '../ladder/ladder-words.ts';

/** One thing of the shop from which a side can be made, with the words it is found by. */
export interface Source {
  readonly key: string;
  readonly kind: 'build' | 'day';
  readonly id: string;
  readonly engineId: string;
  readonly label: string;
  readonly beside: string;
  readonly words: string;
}

/** Every build and test day of the shop, days first as they come latest. */
export function sourcesOf({ engines, latestDays }: ShopSummary): Source[] {
  const days = latestDays
    .filter((day) => day.pullCount > 0)
    .map((day): Source => {
      const label = dayLabel(day);
      return {
        key: day.id,
        kind: 'day',
        id: day.id,
        engineId: day.engineId,
        label: `${day.engineName}, ${day.buildName}, ${label}`,
        beside: `test day, ${count(day.pullCount, 'pull')}`,
        words: `${day.engineName} ${day.buildName} ${label} ${day.date ?? ''} test day`,
      };
    });
  const builds = engines.flatMap((engine) =>
    engine.builds
      .filter((build) => build.pullCount > 0)
      .map(
        (build): Source => ({
          key: build.id,
          kind: 'build',
          id: build.id,
          engineId: engine.id,
          label: `${engine.name}, ${build.name}`,
          beside: `build, ${count(build.pullCount, 'pull')}`,
          words: `${engine.name} ${engine.serial} ${engine.owner} ${build.name} build`,
        }),
      ),
  );
  return [...builds, ...days];
}

/** Those sources that have every word somewhere. */
export function findSources(sources: readonly Source[], words: string): readonly Source[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  return sources.filter((one) => wanted.every((word) => one.words.toLowerCase().includes(word)));
}

/** Which pulls of a source make the side. */
export interface Choice {
  readonly side: SideWanted;
  readonly label: string;
  readonly beside: string;
}

/** All pulls of a build, what was decided to be left in it for each use, and its days. */
export function choicesOfBuild(source: Source, days: readonly DaySummary[]): Choice[] {
  const own = days.filter((day) => day.buildId === source.id && day.pullCount > 0);
  const left = own
    .flatMap((day) => day.decisions)
    .filter(({ setting }) => setting !== null)
    .map(({ kind, use, setting }): Choice => {
      const { word, unit } = SETTING_KINDS[kind];
      const at = settingText(setting!, kind);
      return {
        side: { kind: 'left', buildId: source.id, use },
        label: `As left for ${use}`,
        beside: unit === 'deg' ? at : `${word} ${at}`,
      };
    });
  const oneEach = [...new Map(left.map((choice) => [choice.label, choice])).values()];
  return [
    {
      side: { kind: 'build', buildId: source.id },
      label: 'All its pulls',
      beside: 'at the setting that the sides share',
    },
    ...oneEach,
    ...(own.length > 1
      ? own.map(
          (day): Choice => ({
            side: { kind: 'day', dayId: day.id },
            label: dayLabel(day),
            beside: [count(day.pullCount, 'pull'), leadsInWords(day.lowLeadDeg, day.highLeadDeg)]
              .filter(Boolean)
              .join(', '),
          }),
        )
      : []),
  ];
}

/** The whole day, its groups, and each rung of its ladders. */
export function choicesOfDay({ day, pulls, ladders }: DayPage): Choice[] {
  const groups = [...new Set(pulls.map(({ group }) => group).filter((group) => group !== null))];
  const rungs = ladders.flatMap((ladder) => {
    const own = pulls.filter((pull) => belongsTo(ladder, pull, day.lambdaTarget));
    const counts = new Map<number, number>();
    for (const pull of own) {
      const at = settingIn(ladder.setting, pull, day.lambdaTarget);
      if (at !== null) counts.set(at, (counts.get(at) ?? 0) + 1);
    }
    return [...counts]
      .sort(([a], [b]) => a - b)
      .map(
        ([setting, number]): Choice => ({
          side: { kind: 'rung', ladderId: ladder.id, setting },
          label: `${nameOfLadder(ladder)}, ${settingText(setting, ladder.setting)}`,
          beside: count(number, 'pull'),
        }),
      );
  });
  return [
    {
      side: { kind: 'day', dayId: day.id },
      label: 'The whole day',
      beside: 'at the setting that the sides share',
    },
    ...groups.map(
      (group): Choice => ({
        side: { kind: 'group', dayId: day.id, group },
        label: `Part test, ${group}`,
        beside: count(pulls.filter((pull) => pull.group === group).length, 'pull'),
      }),
    ),
    ...rungs,
  ];
}
