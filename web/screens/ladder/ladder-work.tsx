import { useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { SettingName } from '../../../src/ladder/kinds.ts';
import type { UseRule } from '../../../src/ladder/types.ts';
import { findFuel } from '../../../src/trade/index.ts';
import { refresh, sayDone, useChangePulls } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { dayCurvesQuery, shopSettingsQuery } from '../../api/queries.ts';
import type { DayPage, Ladder, LadderInput, UseRules } from '../../api/types.gen.ts';
import { LadderScreen } from '../../ladder/LadderScreen.tsx';
import type { NewDecisionNote } from '../../ladder/props.ts';
import { onlyPeaks } from '../../ladder/state.ts';
import { Page } from '../../shell/page.tsx';
import { dayLabel } from '../../shell/places.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { offer, sayTrouble } from '../../shell/toasts.tsx';
import { nameOfStandard } from '../../shell/words.ts';
import { BandWords, dayCrumbs } from '../day/day.tsx';
import { withCurves } from '../day/series.ts';
import { useBand } from '../use-band.ts';
import { decisionNotes, detailsOf } from './details.ts';
import { LadderMenu, withMenu } from './ladder-menu.tsx';
import { nameOfLadder, settingText } from './ladder-words.ts';

interface LadderWorkProps {
  readonly page: DayPage;
  readonly ladder: Ladder;
  readonly input: LadderInput;
}

/** The ladder screen between the record and the person: every change goes to the record as it is made. */
export function LadderWork({ page, ladder, input }: LadderWorkProps) {
  const { day, engine, build, pulls, ladders, decisions } = page;
  const name = nameOfLadder(ladder);
  const { units, standard } = usePreferences();
  const shop = useQuery(shopSettingsQuery);
  const curves = useQuery(dayCurvesQuery(day.id, standard));
  const changePulls = useChangePulls();
  const [band, setBand] = useBand(day, ladder, input.bandRpm);
  const ofDay = ladder.standard ?? day.standard ?? shop.data?.standard ?? 'SAE J1349';
  const all = useMemo(() => withCurves(pulls, curves.data ?? []), [pulls, curves.data]);
  const details = useMemo(
    () => detailsOf(all, band ?? input.bandRpm, input.remarks),
    [all, band, input.bandRpm, input.remarks],
  );

  const changeUses = async (uses: readonly UseRule[]) => {
    try {
      await ask('PATCH /shop', {
        body: { uses: asUseRules(ladder.setting, uses, shop.data?.uses ?? []) },
      });
      await refresh();
      await sayDone('The rules of the uses are changed for the whole shop.');
    } catch (error) {
      sayTrouble(error instanceof Error ? error.message : String(error));
    }
  };

  const decide = async (decision: NewDecisionNote) => {
    await ask('POST /ladders/{id}/decisions', {
      params: { id: ladder.id },
      body: {
        use: decision.use,
        setting: decision.setting,
        who: decision.who,
        why: decision.why,
        advised: decision.advised,
        asShown: {
          bandRpm: decision.bandRpm,
          uses: decision.uses,
          ...(standard === null ? {} : { standard }),
        },
      },
    });
    await refresh();
    await sayDone(`Decided: ${settingText(decision.setting, ladder.setting)} for ${decision.use}.`);
  };

  return (
    <Page
      title={`${name}, ${engine.name}`}
      crumbs={withMenu(
        dayCrumbs(page, name),
        <LadderMenu ladder={ladder} ladders={ladders} pulls={pulls} />,
      )}
      standard={ofDay}
      scenario={onlyPeaks(input) ? <span>judged by peaks</span> : <BandWords band={band} />}
    >
      <LadderScreen
        input={input}
        title={{
          ladder: name,
          scenario: `${engine.name}, ${build.name}, ${dayLabel(day)}`,
          standard: nameOfStandard(standard ?? ofDay),
        }}
        units={units}
        fuel={findFuel(day.fuel ?? engine.fuel) ?? null}
        details={details}
        decisions={decisionNotes(decisions, ladder.id)}
        use={ladder.use ?? day.use}
        addPullsHref={`/days/${day.id}`}
        handOverHref={`/builds/${build.id}/handover`}
        onBand={setBand}
        onUses={(uses) =>
          offer(
            'This holdback counts on this page, until you leave it.',
            'Keep it for the whole shop',
            () => void changeUses(uses),
          )
        }
        onExclude={(id, excludedBecause) =>
          changePulls.mutate({
            dayId: day.id,
            patches: [{ id, patch: { excludedBecause } }],
            what: excludedBecause === null ? 'The pull counts again' : 'The pull is left out',
          })
        }
        onDecide={decide}
      />
    </Page>
  );
}

/** The shop's rules with what was changed of them here: for this kind of setting alone. */
export function asUseRules(
  setting: SettingName,
  changed: readonly UseRule[],
  kept: readonly UseRules[],
): readonly UseRules[] {
  return kept.map((one) => {
    const rule = changed.find(({ name }) => name === one.name);
    if (rule === undefined) return one;
    const { holdback, ...rest } = rule;
    const held = setting === 'lead' ? { holdbackDeg: holdback } : { holdbackLambda: holdback };
    return { ...one, ...rest, ...held };
  });
}
