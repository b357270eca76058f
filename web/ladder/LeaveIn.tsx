import { Button, NumberInput, Slider, Textarea, TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { LadderAnswer, LadderInput, UseRule } from '../../src/ladder/types.ts';
import { kept, setting } from '../charts/numbers.ts';
import below from './below.module.css';
import { Decisions } from './Decisions.tsx';
import styles from './ladder.module.css';
import type { DecisionNote, LadderCallbacks } from './props.ts';

interface LeaveInProps extends Pick<LadderCallbacks, 'onUse' | 'onUses' | 'onDecide'> {
  readonly input: LadderInput;
  readonly answer: LadderAnswer;
  readonly use: string | null;
  readonly decisions: readonly DecisionNote[];
  readonly handOverHref?: string | undefined;
}

/** The setting for each use with what it costs and risks; and the decision, which is a person's. */
export function LeaveIn(props: LeaveInProps) {
  const { input, answer, use, decisions, handOverHref, onUse, onUses, onDecide } = props;
  const rule = input.uses.find((one) => one.name === use) ?? null;
  const unknown = input.aspiration === 'natural' ? 'not known yet' : 'no rule';
  return (
    <section aria-labelledby="ladder-leave" className={below.leaveIn}>
      <h2 id="ladder-leave" className={styles.sectionTitle}>
        What would we leave in it
      </h2>
      {input.uses.length === 0 && (
        <p className={styles.quiet}>
          {`No use has a holdback for ${input.kind.word}. `}
          <a href="/settings">Settings, uses</a>
          {': give it there; then a setting is advised here and a decision can be put on record.'}
        </p>
      )}
      <fieldset className={below.uses}>
        <legend className={styles.hidden}>Use of the engine</legend>
        {input.uses.map(({ name }) => {
          const one = answer.uses[name];
          return (
            <label key={name} className={below.use} data-chosen={name === use}>
              <input
                type="radio"
                name="ladder-use"
                checked={name === use}
                onChange={() => onUse?.(name)}
                disabled={onUse === undefined}
              />
              <span className={below.useName}>{name}</span>
              <span className={below.useValue} data-unknown={one?.value == null}>
                {one?.value == null ? unknown : setting(one.value, input.kind.unit, 2)}
              </span>
              <span className={below.useWhy}>{kept(one?.why ?? '')}</span>
            </label>
          );
        })}
      </fieldset>
      {rule !== null && onUses !== undefined && (
        <Rule
          rule={rule}
          input={input}
          onRule={(next) => onUses(input.uses.map((one) => (one.name === next.name ? next : one)))}
        />
      )}
      {onDecide !== undefined && use !== null && (
        <Decide key={use} {...{ input, answer, use, onDecide }} />
      )}
      <Decisions {...{ decisions, answer }} kind={input.kind} />
      {decisions.length > 0 && handOverHref !== undefined && (
        <p className={styles.quiet}>
          <a href={handOverHref}>Hand it over</a>: a report, a page for the owner and a bundle that
          anybody can check.
        </p>
      )}
    </section>
  );
}

/** The rule of the chosen use, live: hold back more and see what it costs. */
function Rule({
  rule,
  input,
  onRule,
}: {
  rule: UseRule;
  input: LadderInput;
  onRule: (rule: UseRule) => void;
}) {
  const { kind, step } = input;
  const most = step * 10;
  return (
    <div className={below.rule}>
      <span id="ladder-holdback">
        {`Held back for ${rule.name}: at least `}
        <b>{setting(rule.holdback, kind.unit, 3)}</b>
      </span>
      <Slider
        aria-labelledby="ladder-holdback"
        thumbLabel={`Least holdback for ${rule.name}`}
        min={0}
        max={most}
        step={step / 2}
        value={rule.holdback}
        onChange={(holdback) => onRule({ ...rule, holdback })}
        label={null}
        size="sm"
        thumbSize={18}
      />
    </div>
  );
}

function Decide({
  input,
  answer,
  use,
  onDecide,
}: {
  input: LadderInput;
  answer: LadderAnswer;
  use: string;
  onDecide: NonNullable<LadderCallbacks['onDecide']>;
}) {
  const advised = answer.uses[use]?.value ?? null;
  const [open, setOpen] = useState(false);
  const [value, setValue] = useState<number | null>(advised);
  const [who, setWho] = useState('');
  const [why, setWhy] = useState('');
  const [state, setState] = useState<'idle' | 'busy' | { problem: string }>('idle');
  // The advice moves with the band and the rule; an untouched form follows it.
  useEffect(() => {
    if (!open) setValue(advised);
  }, [advised, open]);
  if (!open) {
    return (
      <Button variant="default" onClick={() => setOpen(true)} className={below.decide!}>
        {advised === null
          ? 'Record a decision'
          : `Leave ${setting(advised, input.kind.unit, 2)} for ${use}: record it`}
      </Button>
    );
  }
  const ready = value !== null && who.trim() !== '' && (value === advised || why.trim() !== '');
  const submit = async () => {
    if (value === null || !ready) return;
    setState('busy');
    try {
      await onDecide({
        use,
        setting: value,
        who: who.trim(),
        why: why.trim(),
        advised,
        bandRpm: input.bandRpm,
        uses: input.uses,
      });
      setState('idle');
      setOpen(false);
      setWhy('');
    } catch (error) {
      setState({ problem: error instanceof Error ? error.message : String(error) });
    }
  };
  return (
    <form
      className={below.decideForm}
      aria-label="Record a decision"
      onSubmit={(event) => {
        event.preventDefault();
        void submit();
      }}
    >
      <NumberInput
        label={`Leave (${input.kind.unit === '' ? input.kind.word : input.kind.unit})`}
        value={value ?? ''}
        onChange={(next) =>
          setValue(typeof next === 'number' ? next : next === '' ? null : Number(next))
        }
        step={input.step}
        decimalScale={3}
        required
      />
      <TextInput
        label="Who decides"
        value={who}
        onChange={(event) => setWho(event.currentTarget.value)}
        required
        data-autofocus
      />
      <Textarea
        label="Why"
        description={
          value === advised
            ? 'May be left empty where it is as advised.'
            : 'It differs from what is advised: say why.'
        }
        value={why}
        onChange={(event) => setWhy(event.currentTarget.value)}
        required={value !== advised}
        autosize
        minRows={1}
        className={below.decideWhy!}
      />
      {typeof state === 'object' && (
        <p role="alert" className={below.problem}>{`Not recorded: ${state.problem}`}</p>
      )}
      <div className={below.decideButtons}>
        <Button type="submit" disabled={!ready} loading={state === 'busy'}>
          Record the decision
        </Button>
        <Button variant="default" onClick={() => setOpen(false)}>
          Not now
        </Button>
      </div>
    </form>
  );
}
