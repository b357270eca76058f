/** Build sheet of the invented grass-track single, written between two meetings. Every value and name is made up. */

const by = (gauge: string) => ({ by: 'Piet, the back room', with: gauge, on: '2026-05-22' });

export const SINGLE_SEASON = {
  format: 'sheet/1',
  name: 'Grass-track single, season 2026',
  layout: {
    cylinders: 1,
    intakeValvesPerCylinder: 2,
    exhaustValvesPerCylinder: 2,
    mainJournals: 2,
  },
  use: 'bursts',
  sections: {
    intent: {
      values: {
        purpose: 'Four laps at a time',
        highestSpeed: '8800 rpm',
        peakPowerSpeed: '7600 rpm',
        peakTorqueSpeed: '5600 rpm',
        compressionRatio: 11.5,
      },
    },
    block: {
      values: {
        material: 'aluminium',
        boreTopAcross: { each: [86.796], unit: 'mm', plusMinus: 0.003, ...by('bore gauge') },
        boreBottomAcross: { each: [86.794], unit: 'mm', plusMinus: 0.003, ...by('bore gauge') },
      },
    },
    crank: {
      values: {
        stroke: '84.00 mm ± 0.02 mm',
        material: 'forged steel',
        runOut: '0.03 mm',
        endFloat: '0.18 mm',
      },
      parts: [{ name: 'built-up crank', serial: 'K-026', note: 'rod kit new' }],
    },
    rods: {
      values: { length: '143 mm', material: 'steel', sideClearance: { each: [0.4], unit: 'mm' } },
    },
    pistons: {
      values: {
        material: 'forged, high silicon',
        compressionHeight: '34.5 mm',
        domeVolume: '5.0 cc ± 0.2',
        diameter: { each: [86.735], unit: 'mm', ...by('micrometer') },
        mass: { each: [402], unit: 'g', ...by('kitchen scales, checked') },
        topRingGap: {
          each: [0.4],
          unit: 'mm',
          plusMinus: 0.02,
          ...by('feelers'),
          note: 'Came at 0.25: filed.',
        },
      },
    },
    deck: {
      values: {
        deckClearance: { each: [0.6], unit: 'mm', plusMinus: 0.02 },
        gasketThickness: '0.80 mm',
        gasketBore: '88.0 mm',
      },
    },
    heads: {
      values: {
        material: 'aluminium',
        chamber: 'pent roof',
        chamberVolume: { each: [43.9], unit: 'cc', plusMinus: 0.3, ...by('syringe and plate') },
        intakeValveDiameter: '34 mm',
        exhaustValveDiameter: '29 mm',
      },
    },
    camshaft: { values: { lifter: 'overhead finger', intakeCentreline: '106 deg' } },
    induction: { values: { kind: 'carburettor', throttles: 1, throttleDiameter: '39 mm' } },
    fuelSystem: { values: { fuel: 'gasoline', octane: 102, lambda: 0.87 } },
    ignition: { values: { plugGap: '0.6 mm', leadSetBy: 'degree plate and light at 4000 rpm' } },
    oiling: { values: { oil: '10W-50' } },
    condition: { values: { assembled: '2026-05-24', assembledBy: 'Piet, the back room' } },
  },
};
