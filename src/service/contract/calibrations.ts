/** Calibrations of a cell. */
import * as s from '../schema/calibrations.ts';
import { isoDate, z } from '../schema/common.ts';
import { answers, body, byId, createRoute, json, nothing, refusals } from './parts.ts';

const tags = ['calibrations'];
const onQuery = z.object({
  on: isoDate.optional().openapi({ description: 'The day from which to look; left out: today.' }),
});

export const calibrations = {
  list: createRoute({
    method: 'get',
    path: '/cells/{id}/calibrations',
    tags,
    summary: 'All calibrations of a cell, what follows from each, and how they stand on a day',
    request: { params: byId, query: onQuery },
    responses: answers(s.calibrationPage, 'Newest first'),
  }),
  create: createRoute({
    method: 'post',
    path: '/cells/{id}/calibrations',
    tags,
    summary: 'Keep a calibration; the curves of later days follow at once',
    request: { params: byId, query: onQuery, body: body(s.newCalibration) },
    responses: { 201: json(s.calibration, 'The calibration with its answer'), ...refusals },
  }),
  readings: createRoute({
    method: 'post',
    path: '/calibrations/readings',
    tags,
    summary: 'Read what a spreadsheet holds of a calibration; nothing is kept',
    request: { body: body(s.pastedReadings) },
    responses: answers(s.readReadings, 'The points in inside units (a sensor’s in its own)'),
  }),
  get: createRoute({
    method: 'get',
    path: '/calibrations/{id}',
    tags,
    summary: 'One calibration with what follows from it',
    request: { params: byId, query: onQuery },
    responses: answers(s.calibration, 'The calibration'),
  }),
  update: createRoute({
    method: 'patch',
    path: '/calibrations/{id}',
    tags,
    summary: 'Change a calibration; fields left out stay, curves follow',
    request: { params: byId, query: onQuery, body: body(s.calibrationPatch) },
    responses: answers(s.calibration, 'The calibration as it now stands'),
  }),
  remove: createRoute({
    method: 'delete',
    path: '/calibrations/{id}',
    tags,
    summary: 'Remove a calibration; POST /undo brings it back',
    request: { params: byId },
    responses: nothing,
  }),
};
