/** Draws for simulated histories: Park and Miller's generator, then Box and Muller. */
export const uniforms = (seed: number) => {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
};
export function normals(seed: number) {
  const uniform = uniforms(seed);
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
