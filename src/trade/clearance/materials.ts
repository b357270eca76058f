/** Growth of an engine's materials with temperature. */
export interface ExpandingMaterial {
  readonly id: string;
  readonly name: string;
  /** Linear expansion at room temperature [1/K]; the mean up to 150 °C lies a few per cent higher. */
  readonly expansionPerK: number;
  readonly source: string;
  /** F found at the source named, M from memory: check before relying on it. */
  readonly tag: 'F' | 'M';
}

const TABLE_B6 = 'Callister, Materials Science and Engineering, Table B.6 (ASM data)';
const MEMORY = 'from memory of ASM handbook data, low confidence';

const found = (id: string, name: string, millionths: number): ExpandingMaterial => ({
  id,
  name,
  expansionPerK: millionths * 1e-6,
  source: TABLE_B6,
  tag: 'F',
});
const remembered = (id: string, name: string, millionths: number): ExpandingMaterial => ({
  id,
  name,
  expansionPerK: millionths * 1e-6,
  source: MEMORY,
  tag: 'M',
});

export const EXPANDING_MATERIALS: readonly ExpandingMaterial[] = [
  found('grey-iron', 'grey cast iron', 11.4),
  found('ductile-iron', 'ductile iron 60-40-18', 11.2),
  found('steel-1040', 'carbon steel 1040', 11.3),
  found('steel-4340', 'alloy steel 4140 or 4340', 12.3),
  found('aluminium-356', 'cast aluminium 356', 21.5),
  found('aluminium-6061', 'wrought aluminium 6061', 23.6),
  found('aluminium-7075', 'wrought aluminium 7075', 23.4),
  found('aluminium-2024', 'wrought aluminium 2024', 22.9),
  found('titanium-6-4', 'titanium Ti-6Al-4V', 8.6),
  found('magnesium-az91', 'magnesium AZ91', 26),
  remembered('aluminium-319', 'cast aluminium 319', 21.5),
  remembered('aluminium-2618', 'piston aluminium 2618', 22.3),
  remembered('aluminium-4032', 'piston aluminium 4032', 19.4),
  remembered('valve-martensitic', 'martensitic valve steel', 12.5),
  remembered('valve-austenitic', 'austenitic valve steel 21-4N', 17),
  remembered('valve-nickel', 'nickel valve alloy', 13),
];
