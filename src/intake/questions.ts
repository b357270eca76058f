import { AIR_STANDARDS, type TorqueBasis } from '../pull/recording.ts';
import type { Draft } from './channels.ts';
import { quoted } from './display.ts';
import type { Question, ReadOptions } from './types.ts';

/** What the headers of torque and power leave open after mapping and options had their say. */
export function basisQuestions(drafts: readonly Draft[], options: ReadOptions): Question[] {
  const based = drafts.filter((draft) => draft.channel.basis !== undefined);
  const open = based.filter(
    ({ channel }) => channel.basis!.air === 'unknown' || channel.basis!.inertia === 'unknown',
  );
  if (open.length === 0) return [];
  const corrected = open.filter(
    ({ reading, channel }) => reading.correctedToWhat && channel.basis!.air === 'unknown',
  );
  const questions: Question[] = corrected.map(({ header, reading }) => ({
    key: `basis:${header}`,
    header,
    sentence: `${quoted(header)} says it is corrected: to which standard?`,
    meanwhile: 'unknown: it is not corrected any further, and results say so',
    choices: AIR_STANDARDS.filter((air) => air !== 'none').map((air) => ({
      label: air,
      answer: {
        mapping: {
          [header]: {
            quantity: reading.quantity,
            basis: {
              air,
              inertia:
                reading.basis.inertia === 'unknown'
                  ? (options.torqueIs?.inertia ?? 'unknown')
                  : reading.basis.inertia,
            },
          },
        },
      },
    })),
  }));
  const plain = open.filter(
    (draft) => !corrected.includes(draft) || draft.channel.basis!.inertia === 'unknown',
  );
  if (plain.length > 0)
    questions.push({
      key: 'torqueIs',
      header: plain[0]!.header,
      sentence: `What does ${plain.map(({ header }) => quoted(header)).join(' and ')} hold?`,
      meanwhile: 'unknown: it is not corrected, and results say so',
      choices: BASES,
    });
  return questions;
}

const choice = (label: string, torqueIs: TorqueBasis) => ({ label, answer: { torqueIs } });
const BASES: Question['choices'] = [
  choice(
    "as the brake held it, in the day's air, without the torque that sped up the rotating parts",
    {
      air: 'observed',
      inertia: 'out',
    },
  ),
  choice("in the day's air, with the rotating parts' inertia put back by the logger", {
    air: 'observed',
    inertia: 'in',
  }),
  ...AIR_STANDARDS.filter((air) => air !== 'none').flatMap((air) => [
    choice(`corrected to ${air}, inertia not put back`, { air, inertia: 'out' }),
    choice(`corrected to ${air}, inertia put back`, { air, inertia: 'in' }),
  ]),
];

/** Manifold pressures whose header does not say against what they are measured, and whose values look like gauge. */
export function pressureQuestions(drafts: readonly Draft[]): Question[] {
  return drafts.flatMap(({ reading, header, channel }) => {
    if (reading.quantity !== 'manifoldPressure' || reading.pressureReference !== null) return [];
    let low = Number.POSITIVE_INFINITY;
    for (let row = 0; row < channel.values.length; row++)
      if (channel.values[row]! < low) low = channel.values[row]!;
    // No engine pulls its manifold below a tenth of an atmosphere: such figures are measured against the air outside.
    if (!(low < 10_000)) return [];
    return [
      {
        key: `pressure:${header}`,
        header,
        sentence: `Is ${quoted(header)} measured against vacuum (absolute) or against the air outside (gauge)?`,
        meanwhile: 'absolute',
        choices: (['absolute', 'gauge'] as const).map((pressureReference) => ({
          label: pressureReference,
          answer: { mapping: { [header]: { quantity: reading.quantity, pressureReference } } },
        })),
      },
    ];
  });
}

/** Day or month first, where the dates of the file can be read both ways and more than one day occurs. */
export function dayOrderQuestion(): Question {
  return {
    key: 'dayFirst',
    header: null,
    sentence: 'Do dates in this file put the day before the month?',
    meanwhile: 'day first where the decimal mark is a comma, month first otherwise',
    choices: [
      { label: 'day first (25/11)', answer: { dayFirst: true } },
      { label: 'month first (11/25)', answer: { dayFirst: false } },
    ],
  };
}
