import {
  choice,
  each,
  gap,
  METALS,
  number,
  partMass,
  percent,
  type SectionSpec,
  size,
  smallVolume,
  text,
  unbalance,
  yesNo,
} from './field.ts';

const bores = (['Top', 'Middle', 'Bottom'] as const).flatMap((height) =>
  (['Across', 'Along'] as const).map((direction) =>
    each(
      'cylinder',
      size(
        `bore${height}${direction}`,
        `Bore, ${height.toLowerCase()}, ${direction === 'Across' ? 'across the crank' : 'along the crank'}`,
        {
          low: 0.01,
          high: 1,
        },
      ),
    ),
  ),
);

export const BLOCK: SectionSpec = {
  id: 'block',
  title: 'Block and bore',
  fields: [
    choice('material', 'Block material', METALS),
    size('boreNominal', 'Bore, nominal', {
      low: 0.01,
      high: 1,
      help: 'What the bores were honed to; the measured ones below are used where they stand.',
    }),
    size('height', 'Block height', { help: 'Crank centre line to deck.' }),
    ...bores,
    each(
      'mainJournal',
      size('mainHousing', 'Main bore with bearing in', {
        help: 'Across the parting line at right angles, caps torqued.',
      }),
    ),
    each(
      'mainJournal',
      size('mainHousingBare', 'Main housing without bearing', {
        help: 'Caps torqued; with the thickness of the shells it gives the clearance too.',
      }),
    ),
    text('honing', 'Honing', 'Stones, plateau, with or without a torque plate.'),
    yesNo('torquePlate', 'Honed with a torque plate'),
  ],
};

export const CRANK: SectionSpec = {
  id: 'crank',
  title: 'Crank',
  fields: [
    size('stroke', 'Stroke', { low: 0.005, high: 2 }),
    choice('material', 'Crank material', [
      'forged steel',
      'billet steel',
      'cast steel',
      'cast iron',
    ]),
    each('mainJournal', size('mainDiameter', 'Main journal')),
    each('rodJournal', size('rodDiameter', 'Rod journal')),
    each(
      'mainJournal',
      gap('mainClearance', 'Main clearance', {
        help: 'As measured directly; else bore less journal.',
      }),
    ),
    each(
      'rodJournal',
      gap('rodClearance', 'Rod clearance', {
        help: 'As measured directly; else bore less journal.',
      }),
    ),
    each('mainJournal', gap('mainTaper', 'Main journal taper')),
    each(
      'mainJournal',
      size('mainShell', 'Main bearing shell', {
        help: 'Thickness in its middle, by a ball micrometer.',
      }),
    ),
    gap('runOut', 'Run-out', {
      help: 'Dial on the centre main, crank on its end mains, whole reading.',
    }),
    gap('endFloat', 'End float'),
    partMass('oilAllowance', 'Oil allowance', {
      help: 'Oil carried by one throw; 3 to 5 g is common practice, no source.',
    }),
    partMass('bobweight', 'Bobweight used', {
      help: 'What the crank was balanced with, each throw.',
    }),
    percent('overbalance', 'Share of reciprocating weight balanced', {
      help: '50 % for a cross-plane V8 unless the shop wants more.',
    }),
    unbalance('residualFront', 'Residual unbalance, front'),
    unbalance('residualRear', 'Residual unbalance, rear'),
    yesNo('balancedOutside', 'Balanced with damper and flywheel on'),
  ],
};

export const RODS: SectionSpec = {
  id: 'rods',
  title: 'Rods',
  fields: [
    size('length', 'Length between centres', { low: 0.01, high: 3 }),
    choice('material', 'Rod material', METALS),
    each('cylinder', partMass('bigEndMass', 'Big end weight')),
    each('cylinder', partMass('smallEndMass', 'Small end weight')),
    partMass('bearingMass', 'Rod bearing pair weight'),
    each('cylinder', size('bigEndBore', 'Big end bore with bearing in')),
    each('cylinder', size('bigEndHousing', 'Big end housing without bearing')),
    each(
      'cylinder',
      size('bigEndShell', 'Rod bearing shell', {
        help: 'Thickness in its middle, by a ball micrometer.',
      }),
    ),
    each(
      'rodJournal',
      gap('sideClearance', 'Side clearance', { help: 'Of all rods on the journal together.' }),
    ),
    each('cylinder', gap('pinClearance', 'Pin clearance in the small end')),
    number('boltsPerRod', 'Bolts a rod', { low: 1, high: 8 }),
    text('boltSize', 'Bolt size', 'Such as 7/16-20 or M9x1.0.'),
    size('boltFreeLength', 'Bolt free length'),
    size('boltStretchedLength', 'Length of shank that stretches', {
      help: 'Under the head to the first loaded thread.',
    }),
    gap('boltStretchLow', 'Stretch wanted, least'),
    gap('boltStretchHigh', 'Stretch wanted, most'),
    each('cylinder', gap('boltStretchA', 'Stretch of bolt A')),
    each('cylinder', gap('boltStretchB', 'Stretch of bolt B')),
  ],
};

export const PISTONS: SectionSpec = {
  id: 'pistons',
  title: 'Pistons and rings',
  fields: [
    choice('material', 'Piston material', [
      'forged, low silicon',
      'forged, high silicon',
      'cast',
      'hypereutectic cast',
    ]),
    size('compressionHeight', 'Compression height', {
      help: 'Pin centre to the flat of the crown.',
    }),
    size('pinDiameter', 'Pin diameter'),
    gap('pinOffset', 'Pin offset', { help: 'Towards the major thrust side is positive.' }),
    smallVolume('domeVolume', 'Dome volume', { help: 'Of the dome above the flat; 0 for none.' }),
    smallVolume('dishVolume', 'Dish and valve reliefs', {
      help: 'All that lies below the flat, together.',
    }),
    each(
      'cylinder',
      size('diameter', 'Piston diameter', { help: 'At the gauge point of its maker.' }),
    ),
    each(
      'cylinder',
      gap('wallClearance', 'Piston clearance', {
        help: 'As measured directly; else bore less piston.',
      }),
    ),
    each('cylinder', partMass('mass', 'Piston weight')),
    each('cylinder', partMass('pinMass', 'Pin weight')),
    partMass('locksMass', 'Pin locks weight, one piston'),
    partMass('ringsMass', 'Rings weight, one piston'),
    size('topLandHeight', 'Top land height'),
    size('topLandDiameter', 'Top land diameter'),
    size('intakePocketDepth', 'Intake pocket depth', {
      help: 'Along the valve, below the flat of the crown.',
    }),
    size('exhaustPocketDepth', 'Exhaust pocket depth', {
      help: 'Along the valve, below the flat of the crown.',
    }),
    each('cylinder', gap('topRingGap', 'Top ring end gap')),
    each('cylinder', gap('secondRingGap', 'Second ring end gap')),
    each('cylinder', gap('oilRailGap', 'Oil rail end gap')),
    each('cylinder', gap('topRingSide', 'Top ring clearance in its groove')),
    each('cylinder', gap('secondRingSide', 'Second ring clearance in its groove')),
  ],
};

export const DECK: SectionSpec = {
  id: 'deck',
  title: 'Deck and gasket',
  fields: [
    each(
      'cylinder',
      gap('deckClearance', 'Piston below the deck', {
        help: 'At top dead centre; negative where the piston stands out of the bore.',
      }),
    ),
    size('gasketThickness', 'Gasket, compressed', { high: 0.02 }),
    size('gasketBore', 'Gasket bore'),
    yesNo('retorque', 'Gasket asks for a second torquing'),
  ],
};
