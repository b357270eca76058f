/** Routes of a cell's calibrations: calls of the record, each answer with what follows from the readings. */
import { FormatError } from '../../errors.ts';
import type { Calibration, PullbookRecord } from '../../record/index.ts';
import { answerMeasured, pastedSensor, pastedWeights } from '../../trade/index.ts';
import { calibrations as contract } from '../contract/calibrations.ts';
import { calibrationAmong, dueOn } from '../work/calibrations.ts';
import type { Api } from './api.ts';
import { changeOf } from './shelves.ts';

/** The day where the server stands. */
const today = () => {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
};

const answered = (one: Calibration, on = today()) => ({
  ...one,
  answer: answerMeasured(one.measured),
  due: dueOn(one, on),
});

export function serveCalibrations(api: Api, record: PullbookRecord): void {
  api.openapi(contract.list, async (c) => {
    const cell = await record.cells.get(c.req.valid('param').id);
    const { on = today() } = c.req.valid('query');
    const all = await record.calibrations.list({ cellId: cell.id });
    const { state } = calibrationAmong(cell, all, on);
    const calibrations = [...all].reverse().map((one) => answered(one, on));
    return c.json({ state, calibrations }, 200);
  });
  api.openapi(contract.create, async (c) => {
    const { id } = c.req.valid('param');
    const fresh = { ...c.req.valid('json'), cellId: id } as never;
    const made = await record.calibrations.create(fresh, changeOf(c));
    return c.json(answered(made, c.req.valid('query').on), 201);
  });
  api.openapi(contract.readings, async (c) => {
    const pasted = c.req.valid('json');
    const read =
      pasted.kind === 'sensor'
        ? pastedSensor(pasted.text, pasted.unit)
        : pastedWeights(pasted.text, { mass: pasted.massUnit, torque: pasted.torqueUnit });
    if ('points' in read) return c.json({ kind: pasted.kind, points: read.points } as never, 200);
    const { row, column, found, expected } = read.problems[0]!;
    throw new FormatError(`row ${row}, column ${column}: ${found}; expected ${expected}`, {
      line: row,
      column,
      found,
      expected,
    });
  });
  api.openapi(contract.get, async (c) => {
    const one = await record.calibrations.get(c.req.valid('param').id);
    return c.json(answered(one, c.req.valid('query').on), 200);
  });
  api.openapi(contract.update, async (c) => {
    const { id } = c.req.valid('param');
    const one = await record.calibrations.update(id, c.req.valid('json') as never, changeOf(c));
    return c.json(answered(one, c.req.valid('query').on), 200);
  });
  api.openapi(contract.remove, async (c) => {
    await record.calibrations.remove(c.req.valid('param').id, changeOf(c));
    return c.body(null, 204);
  });
}
