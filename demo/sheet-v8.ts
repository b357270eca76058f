/** Build sheet of the invented rescue boat's V8, in inches as its builder measures. Every value and name is made up. */

const ON = '2026-04-28';
const by = (gauge: string) => ({ by: 'Tamsin, bench 2', with: gauge, on: ON });
const eight = (value: number, steps: readonly number[], step: number, decimals: number) =>
  steps.map((one) => Number((value + one * step).toFixed(decimals)));

export const V8_OVERHAUL = {
  format: 'sheet/1',
  name: 'Rescue boat V8, overhaul 2026',
  layout: { cylinders: 8, arrangement: 'V', bankAngleDeg: 90, crank: 'cross-plane' },
  use: 'sustained',
  sections: {
    intent: {
      values: {
        purpose: 'Minutes of sustained full throttle with people depending on it',
        highestSpeed: '5200 rpm',
        peakPowerSpeed: '4800 rpm',
        peakTorqueSpeed: '3500 rpm',
        lowSpeed: '2200 rpm',
        compressionRatio: 9.6,
        power: '330 hp',
        hottestInlet: '30 °C',
      },
    },
    block: {
      values: {
        material: 'iron',
        boreNominal: '3.9988 in',
        boreTopAcross: {
          each: eight(3.9988, [0, 1, 0, -1, 0, 0, 1, 0], 0.0001, 4),
          unit: 'in',
          plusMinus: 0.0002,
          ...by('bore gauge'),
        },
        boreMiddleAcross: {
          each: eight(3.9988, [0, 0, 0, 0, -1, 0, 0, 0], 0.0001, 4),
          unit: 'in',
          plusMinus: 0.0002,
        },
        boreBottomAcross: {
          each: eight(3.9987, [0, 1, 0, 0, 0, 0, 0, 1], 0.0001, 4),
          unit: 'in',
          plusMinus: 0.0002,
        },
        torquePlate: true,
      },
    },
    crank: {
      values: {
        stroke: '88.40 mm ± 0.02 mm',
        material: 'forged steel',
        mainDiameter: {
          each: [2.4485, 2.4484, 2.4485, 2.4485, 2.4483],
          unit: 'in',
          plusMinus: 0.0001,
        },
        rodDiameter: { each: [2.0995, 2.0994, 2.0995, 2.0995], unit: 'in', plusMinus: 0.0001 },
        mainClearance: {
          each: [0.0026, 0.0027, 0.0027, 0.0026, 0.0028],
          unit: 'in',
          ...by('bore gauge less micrometer'),
        },
        rodClearance: { each: [0.0023, 0.0024, 0.0023, 0.0023], unit: 'in' },
        endFloat: '0.006 in',
        runOut: '0.0008 in',
        oilAllowance: '4 g',
        bobweight: '1858 g',
        overbalance: '50 %',
      },
      parts: [{ name: 'crank', serial: 'K-108' }],
      notes:
        'The bobweight is the one it was balanced with. The new pistons are lighter: to be balanced again at the next strip.',
    },
    rods: {
      values: {
        length: '5.700 in',
        material: 'steel',
        bigEndMass: { each: eight(432, [0, 1, -1, 0, 0, 1, 0, 0], 0.2, 1), unit: 'g' },
        smallEndMass: { each: eight(182, [0, 0, 1, 0, -1, 0, 0, 0], 0.2, 1), unit: 'g' },
        bearingMass: '46 g',
        sideClearance: { each: [0.014, 0.015, 0.014, 0.016], unit: 'in' },
        boltsPerRod: 2,
        boltSize: '3/8-24',
      },
    },
    pistons: {
      values: {
        material: 'hypereutectic cast',
        compressionHeight: '1.560 in',
        dishVolume: '6.3 cc ± 0.2',
        diameter: { each: eight(3.9968, [0, 0, 1, 0, 0, 0, -1, 0], 0.0001, 4), unit: 'in' },
        mass: { each: eight(512, [0, 1, 0, -1, 0, 0, 1, 0], 0.3, 1), unit: 'g' },
        pinMass: { value: 118, unit: 'g' },
        ringsMass: '54 g',
        topRingGap: {
          each: eight(0.022, [0, 1, 0, 0, 0, 0, 1, 0], 0.001, 3),
          unit: 'in',
          ...by('feelers'),
        },
        secondRingGap: { each: eight(0.024, [0, 0, 0, 1, 0, 0, 0, 0], 0.001, 3), unit: 'in' },
      },
    },
    deck: {
      values: {
        deckClearance: {
          each: eight(0.02, [0, 1, 0, 0, 0, -1, 0, 0], 0.001, 3),
          unit: 'in',
          plusMinus: 0.001,
        },
        gasketThickness: '0.041 in ± 0.001 in',
        gasketBore: '4.100 in',
      },
      notes:
        'Quench stays over its window: the deck was left, to keep the ratio for the hot engine room.',
    },
    heads: {
      values: {
        material: 'iron',
        chamber: 'open wedge',
        chamberVolume: {
          each: eight(64, [0, 1, 0, -1, 0, 1, 0, -1], 0.2, 1),
          unit: 'cc',
          plusMinus: 0.2,
          ...by('burette and plate'),
        },
        intakeValveDiameter: '1.94 in',
        exhaustValveDiameter: '1.50 in',
      },
      parts: [
        { name: 'head, port side', serial: 'H-077', note: 'hardened exhaust seats' },
        { name: 'head, starboard side', serial: 'H-078', note: 'hardened exhaust seats' },
      ],
    },
    camshaft: {
      values: {
        lifter: 'hydraulic roller',
        checkingLift: '0.050 in',
        intakeDuration: '204 deg',
        exhaustDuration: '214 deg',
        seatLift: '0.006 in',
        intakeSeatDuration: '254 deg',
        exhaustSeatDuration: '264 deg',
        intakeLobeLift: '0.290 in',
        exhaustLobeLift: '0.300 in',
        separation: '112 deg',
        advance: '4 deg',
      },
    },
    valveTrain: {
      values: {
        intakeRockerRatio: 1.5,
        exhaustRockerRatio: 1.5,
        preload: '0.035 in',
        springRate: '310 lb/in',
        seatLoadWanted: '125 lbf',
        intakeInstalledHeight: { value: 1.7, unit: 'in' },
        exhaustInstalledHeight: { value: 1.7, unit: 'in' },
        coilBindHeight: '1.150 in',
      },
    },
    induction: {
      values: {
        kind: 'carburettor',
        throttles: 4,
        ratedFlow: '600 cfm',
        ratedDepression: '1.5 inHg',
      },
    },
    fuelSystem: { values: { fuel: 'gasoline', octane: 95, lambda: 0.86 } },
    ignition: { values: { plugGap: '0.9 mm', firingOrder: '1-8-4-3-6-5-7-2' } },
    oiling: {
      values: {
        oil: '15W-40',
        hotPressure: '52 psi',
        hotPressureSpeed: '5000 rpm',
        idlePressure: '14 psi',
      },
    },
    condition: {
      values: { assembled: '2026-05-06', assembledBy: 'Tamsin, bench 2', runIn: '3 h' },
    },
  },
};
