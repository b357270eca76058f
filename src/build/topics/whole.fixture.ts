import type { EachEntry } from '../sheet/types.ts';

/** A sheet with nearly all that its sections ask for, of an invented street V8, as a person would have typed it. */

const perCylinder = (
  value: number,
  unit: string,
  spread: number,
  plusMinus: number,
): EachEntry => ({
  each: Array.from({ length: 8 }, (_, i) => value + spread * ((i * 5) % 8) - 4 * spread),
  unit,
  plusMinus,
});
const perJournal = (count: number, value: number, plusMinus: number): EachEntry => ({
  each: Array.from({ length: count }, (_, i) => value + 0.0001 * (i % 3)),
  unit: 'in',
  plusMinus,
});
const bores = Object.fromEntries(
  ['Top', 'Middle', 'Bottom'].flatMap((height) =>
    ['Across', 'Along'].map((direction) => [
      `bore${height}${direction}`,
      perCylinder(4.03, 'in', 0.00005, 0.0001),
    ]),
  ),
);

export const WHOLE_SHEET = {
  format: 'sheet/1',
  name: 'street small block, every section',
  layout: { cylinders: 8 },
  use: 'bursts',
  sections: {
    intent: {
      values: {
        purpose: 'cruising, and short bursts at full throttle',
        highestSpeed: '6500 rpm',
        peakPowerSpeed: '5800 rpm',
        peakTorqueSpeed: '4200 rpm',
        lowSpeed: '2800 rpm',
        power: '400 hp',
        compressionRatio: 10,
        hottestInlet: '110 °F',
      },
    },
    block: { values: { material: 'iron', boreNominal: '4.030 in', height: '9.025 in', ...bores } },
    crank: {
      values: {
        stroke: '3.480 ± 0.001 in',
        material: 'forged steel',
        mainDiameter: perJournal(5, 2.4482, 0.0001),
        rodDiameter: perJournal(4, 2.0995, 0.0001),
        mainClearance: perJournal(5, 0.0024, 0.0002),
        rodClearance: perJournal(4, 0.0022, 0.0002),
        runOut: '0.001 ± 0.0005 in',
        endFloat: '0.006 ± 0.001 in',
        oilAllowance: '4 g',
        bobweight: '1803 ± 1 g',
        residualFront: '0.3 oz-in',
        residualRear: '0.2 oz-in',
      },
    },
    rods: {
      values: {
        length: '5.700 ± 0.001 in',
        material: 'steel',
        bigEndMass: perCylinder(425, 'g', 0.1, 0.2),
        smallEndMass: perCylinder(180, 'g', 0.1, 0.2),
        bearingMass: '46 ± 0.2 g',
        boltsPerRod: 2,
        boltSize: '3/8-24',
        boltStretchLow: '0.0055 in',
        boltStretchHigh: '0.0065 in',
        boltStretchA: perCylinder(0.006, 'in', 0.00002, 0.0001),
        boltStretchB: perCylinder(0.006, 'in', 0.00002, 0.0001),
      },
    },
    pistons: {
      values: {
        material: 'forged, low silicon',
        compressionHeight: '1.560 ± 0.001 in',
        pinDiameter: '0.927 in',
        dishVolume: '5 ± 0.2 cc',
        mass: perCylinder(480, 'g', 0.1, 0.2),
        pinMass: perCylinder(135, 'g', 0.05, 0.2),
        locksMass: '10 g',
        ringsMass: '52 ± 0.5 g',
        wallClearance: perCylinder(0.0045, 'in', 0.00002, 0.0002),
        topRingGap: perCylinder(0.018, 'in', 0.0001, 0.001),
        secondRingGap: perCylinder(0.02, 'in', 0.0001, 0.001),
      },
    },
    deck: {
      values: {
        deckClearance: perCylinder(0.01, 'in', 0.0001, 0.0005),
        gasketThickness: '0.039 ± 0.001 in',
        gasketBore: '4.100 in',
        retorque: true,
      },
    },
    heads: {
      values: {
        material: 'iron',
        chamber: 'closed wedge',
        chamberVolume: perCylinder(64, 'cc', 0.05, 0.2),
        intakeValveDiameter: '2.02 in',
        exhaustValveDiameter: '1.60 in',
        flowDepression: '28 ± 0.2 inH2O',
        flowIs: 'volume',
      },
      tables: {
        flow: {
          units: { lift: 'in', intake: 'cfm', exhaust: 'cfm' },
          rows: [
            { lift: 0.1, intake: 64, exhaust: 52 },
            { lift: 0.2, intake: 126, exhaust: 100 },
            { lift: 0.3, intake: 178, exhaust: 138 },
            { lift: 0.4, intake: 212, exhaust: 160 },
            { lift: 0.5, intake: 228, exhaust: 170 },
          ],
        },
      },
    },
    camshaft: {
      values: {
        lifter: 'solid flat',
        checkingLift: '0.050 in',
        intakeDuration: '236 ± 1 deg',
        exhaustDuration: '242 ± 1 deg',
        seatLift: '0.020 in',
        intakeSeatDuration: '272 ± 1 deg',
        exhaustSeatDuration: '278 ± 1 deg',
        intakeLobeLift: '0.330 ± 0.001 in',
        exhaustLobeLift: '0.335 ± 0.001 in',
        separation: '110 ± 0.5 deg',
        advance: '4 ± 0.5 deg',
      },
    },
    valveTrain: {
      values: {
        intakeRockerRatio: { value: 1.5, plusMinus: 0.01 },
        exhaustRockerRatio: { value: 1.5, plusMinus: 0.01 },
        intakeLashHot: '0.018 in',
        exhaustLashHot: '0.020 in',
        springRate: '380 ± 10 lb/in',
        seatLoadWanted: '125 lb',
        coilBindHeight: '1.10 in',
        intakeValveMass: '110 g',
        exhaustValveMass: '95 g',
        retainerMass: '30 g',
        springMass: '90 g',
        pushrodLength: '7.8 in',
      },
    },
    induction: {
      values: {
        kind: 'carburettor',
        throttles: 4,
        throttleDiameter: '1.69 in',
        ratedFlow: '650 cfm',
        ratedDepression: '1.5 inHg',
        plenumVolume: '3 L',
        runnerLength: '9 in',
        runnerDiameter: '1.6 in',
        volumetricEfficiency: '95 %',
      },
    },
    fuelSystem: {
      values: {
        fuel: 'gasoline 93',
        lambda: 0.87,
        bsfc: '0.48 ± 0.02 lb/hp-h',
        pumpFlow: '60 gal/h',
        reliefPressure: '6 psi',
      },
    },
    ignition: { values: { baseTiming: '12 deg', firingOrder: '1-8-4-3-6-5-7-2' } },
    exhaust: {
      values: {
        primaryLength: '34 in',
        primaryDiameter: '1.75 in',
        collectorLength: '12 in',
        collectorDiameter: '3 in',
      },
    },
    oiling: {
      values: {
        oil: '10W-40',
        capacity: '5.5 L',
        reliefPressure: '65 psi',
        hotPressure: '55 ± 1 psi',
        hotPressureSpeed: '5000 rpm',
        idlePressure: '18 psi',
      },
    },
    condition: {
      values: {
        leakDown: perCylinder(5, '%', 0.1, 0),
        crankingPressure: perCylinder(165, 'psi', 0.5, 1),
      },
    },
  },
};
