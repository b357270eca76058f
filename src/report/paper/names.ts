import type { HandOver } from '../handover/types.ts';

/** Names from outside that sentences of a hand-over may hold: of its engine, builds, days, cells, ladders, uses and parts. */
export function namesIn({ shop, engine, build, days, sinceLast }: HandOver): ReadonlySet<string> {
  const names = [
    shop.name,
    engine.name,
    build.name,
    ...(sinceLast === null ? [] : [sinceLast.build.name]),
    ...(sinceLast?.changes?.parts ?? []).map(({ name }) => name),
    ...days.flatMap(({ name, cell, ladders, pulls }) => [
      name,
      cell.name,
      ...ladders.flatMap((ladder) => [ladder.name, ...Object.keys(ladder.answer?.uses ?? {})]),
      ...pulls.map(({ fileName }) => fileName ?? ''),
    ]),
  ];
  return new Set(names.filter((name) => name !== ''));
}
