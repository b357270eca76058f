import { describe, expect, it } from 'vitest';
import { inUnitsOf } from './sentences.ts';

// By definition: 1 lb-ft = 1.3558179 N·m, °F = 1.8 °C + 32, 1 psi = 6.894757 kPa, 1 inHg = 3.386389 kPa, 1 mph = 1.609344 km/h.
describe('a sentence in the units of a system', () => {
  it.each([
    [
      'Torque stood 74 N·m below the curve at 2391 rev/min; those readings were left out.',
      'Torque stood 55 lb-ft below the curve at 2391 rpm; those readings were left out.',
    ],
    ['Trap speed is 172.0 km/h at 6400 rev/min.', 'Trap speed is 106.9 mph at 6400 rpm.'],
    [
      'Inlet air at 8 °C is outside the 15 to 35 °C that SAE J1349 is written for.',
      'Inlet air at 46 °F is outside the 59 to 95 °F that SAE J1349 is written for.',
    ],
    [
      "Oil stood 10 °C above the day's other pulls when this one began: part of its difference is heat.",
      "Oil stood 18 °F above the day's other pulls when this one began: part of its difference is heat.",
    ],
    [
      'Oil stood at 60 °C when the pull began, below its window of 65 °C to 120 °C.',
      'Oil stood at 140 °F when the pull began, below its window of 149 °F to 248 °F.',
    ],
    [
      'Inlet air moved by 5.0 °C during the pull; one factor for the whole pull is off by 0.5 % of torque at its ends.',
      'Inlet air moved by 9.0 °F during the pull; one factor for the whole pull is off by 0.5 % of torque at its ends.',
    ],
    [
      'Oil pressure sags from 400 to 200 kPa at 5200 rev/min while the speed rises.',
      'Oil pressure sags from 58 to 29 psi at 5200 rpm while the speed rises.',
    ],
    [
      'Dry air pressure of 89.1 kPa is outside the 90 to 105 kPa that SAE J1349 is written for.',
      'Dry air pressure of 26.31 inHg is outside the 26.58 to 31.01 inHg that SAE J1349 is written for.',
    ],
    [
      'The air pressure moved by 20.0 hPa during the pull, which no weather does.',
      'The air pressure moved by 0.59 inHg during the pull, which no weather does.',
    ],
    [
      "The load cell's zero moved by 2.8 N·m between before and after the pull (-1.4 to 1.4 N·m); the mean of both was taken off.",
      "The load cell's zero moved by 2.1 lb-ft between before and after the pull (-1.0 to 1.0 lb-ft); the mean of both was taken off.",
    ],
  ])('%s', (inside, us) => {
    expect(inUnitsOf(inside, 'us')).toBe(us);
    expect(inUnitsOf(inside, 'metric')).toBe(inside.replaceAll('rev/min', 'rpm'));
  });

  it('leaves a figure alone whose unit is part of a larger one', () => {
    const sentence = 'at this sweep rate 12 N·m for each kg·m².';
    expect(inUnitsOf(sentence, 'us')).toBe(sentence);
  });
});
