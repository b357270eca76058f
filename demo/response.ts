/**
 * How log torque falls away from the best lead. None of these is the parabola or cubic that a model would
 * assume; each has −log(T/T_best) = k·d² near d = 0 and leans to one side farther out.
 */
export const SHAPES = ['phasing', 'linex', 'cosh', 'flat tails'] as const;
export type Shape = (typeof SHAPES)[number];

/**
 * −log(T/T_best) [1] at `d` degrees above the best lead.
 * @param curvature  k, per square degree, at the best lead
 * @param lean       per degree; above zero the advanced side falls steeper, below zero the retarded side.
 *                   `phasing` takes only its sign: its lean comes from its own physics.
 */
export function logLoss(shape: Shape, d: number, curvature: number, lean: number): number {
  switch (shape) {
    case 'linex': {
      if (Math.abs(lean) < 1e-9) return curvature * d * d;
      const q = lean;
      return ((2 * curvature) / (q * q)) * (Math.expm1(q * d) - q * d);
    }
    case 'cosh': {
      const e = leaning(d, lean / 3) / 13;
      return 2 * curvature * 169 * (Math.cosh(Math.min(e, 6)) - 1);
    }
    case 'flat tails': {
      const e = leaning(d, lean / 3);
      return curvature * 256 * Math.log1p((e * e) / 256);
    }
    case 'phasing':
      return phasingLogLoss(lean < 0 ? -d : d, curvature);
  }
}

/** A stretched coordinate with slope 1 at 0: e = (exp(c·d) − 1)/c. */
function leaning(d: number, c: number): number {
  return Math.abs(c) < 1e-9 ? d : Math.expm1(c * d) / c;
}

interface PhasingTable {
  readonly stepDeg: number;
  readonly loss: Float64Array;
  readonly middle: number;
  readonly curvature: number;
}
let phasing: PhasingTable | null = null;

/**
 * Work of a burn against its phasing: each part of the charge gives 1 − (V/Vmax)^(γ−1) of its heat, burnt
 * along a Wiebe curve (a = 6.908, m = 2, 45 degrees long), less a heat loss that rises as the burn comes
 * earlier. Scaled along the lead so that its curvature at the best is the one asked for.
 */
function phasingTable(): PhasingTable {
  const stepDeg = 0.25;
  const half = 320;
  const ratio = 10;
  const rodRatio = 3.5;
  const burnDeg = 45;
  const parts = 60;
  const given = (crankDeg: number) => {
    const a = (crankDeg * Math.PI) / 180;
    const travel = 1 - Math.cos(a) + rodRatio - Math.sqrt(rodRatio ** 2 - Math.sin(a) ** 2);
    const volume = (1 + ((ratio - 1) * travel) / 2) / ratio;
    return 1 - volume ** 0.3;
  };
  const burnt: number[] = [];
  for (let i = 0; i <= parts; i++) burnt.push(1 - Math.exp(-6.908 * (i / parts) ** 3));
  const work = new Float64Array(2 * half + 1);
  for (let j = 0; j < work.length; j++) {
    const advance = (j - half) * stepDeg;
    const startDeg = -12 - advance;
    let sum = 0;
    for (let i = 0; i < parts; i++) {
      const at = startDeg + ((i + 0.5) / parts) * burnDeg;
      sum += (burnt[i + 1]! - burnt[i]!) * given(at);
    }
    work[j] = Math.max(0.02, sum - 0.035 * Math.exp(advance / 22));
  }
  let top = 0;
  for (let j = 0; j < work.length; j++) if (work[j]! > work[top]!) top = j;
  const [y0, y1, y2] = [work[top - 1]!, work[top]!, work[top + 1]!];
  const shift = (0.5 * (y0 - y2)) / (y0 - 2 * y1 + y2);
  const best = y1 - 0.25 * (y0 - y2) * shift;
  const curvature = -(y0 - 2 * y1 + y2) / (2 * stepDeg * stepDeg * best);
  return {
    stepDeg,
    loss: work.map((w) => -Math.log(w / best)),
    middle: top + shift,
    curvature,
  };
}

function phasingLogLoss(d: number, curvature: number): number {
  phasing ??= phasingTable();
  const { loss, middle, stepDeg } = phasing;
  const at = middle + (d * Math.sqrt(curvature / phasing.curvature)) / stepDeg;
  const i = Math.min(Math.max(Math.floor(at), 1), loss.length - 3);
  const u = Math.min(Math.max(at - i, -1), 2);
  const [a, b, c, e] = [loss[i - 1]!, loss[i]!, loss[i + 1]!, loss[i + 2]!];
  return b + 0.5 * u * (c - a + u * (2 * a - 5 * b + 4 * c - e + u * (3 * (b - c) + e - a)));
}
