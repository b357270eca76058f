/** What the invented engines drive, as their owners told the shop. */
export const DEMO_VEHICLES: readonly {
  readonly engine: string;
  readonly name: string;
  readonly written: Readonly<Record<string, unknown>>;
}[] = [
  {
    engine: 'Rally six',
    name: 'Hill-climb coupe',
    written: {
      format: 'vehicle/1',
      name: 'Hill-climb coupe',
      mass: '1180 kg',
      wheelInertia: '3.6 kg m^2',
      engineInertia: '0.17 kg m^2',
      gears: [2.9, 1.95, 1.45, 1.18, 1],
      finalDrive: 3.9,
      tyre: { radius: '298 mm', growth: '1 %', growthAt: '200 km/h' },
      driveline: { loss: '7 %', drag: '4 Nm' },
      clutch: { launchSpeed: '4000 rpm' },
      dragArea: '0.72 m^2',
      rollingResistance: 0.014,
      traction: {
        coefficient: 1.05,
        driven: 'rear',
        drivenShare: '50 %',
        centreHeight: '0.48 m',
        wheelbase: '2.42 m',
      },
      shift: { time: '0.25 s' },
      airDensity: '1.18 kg/m^3',
    },
  },
];
