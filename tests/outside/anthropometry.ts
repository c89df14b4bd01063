/**
 * Public figures of human legs, only those that the simulated legs are drawn from. Lengths in mm, angles in degrees.
 *
 * Lengths: summary statistics (sample standard deviation) computed from ANSUR II, the US Army's anthropometric survey
 * of 2012, public data: 4082 men and 1986 women, soldiers of 17 to 58 years and no population of skiers.
 */

interface Spread {
  readonly mean: number;
  readonly sd: number;
}

interface Body {
  /** `tibialheight` minus `lateralmalleolusheight`: from the ankle's outer knob to the top of the shin. */
  readonly shankMm: Spread;
  /** `kneeheightmidpatella`: middle of the kneecap over the floor. */
  readonly kneeHeightMm: Spread;
  /** Their correlation, taken as that of `tibialheight` and `kneeheightmidpatella`. */
  readonly together: number;
  /**
   * Angle of femur and tibia in the frontal plane, varus positive. Table 2 in Nicolella et al., Biol Sex Differ
   * 2012;3:28, doi 10.1186/2042-6410-3-28: 30 men and 30 women of 21 to 40 years.
   */
  readonly femurTibiaDeg: Spread;
}

export const BODIES: Readonly<Record<'men' | 'women', Body>> = {
  men: {
    shankMm: { mean: 395.3, sd: 24.45 },
    kneeHeightMm: { mean: 488.39, sd: 28.13 },
    together: 0.948,
    femurTibiaDeg: { mean: 2.3, sd: 2.3 },
  },
  women: {
    shankMm: { mean: 375.02, sd: 23.54 },
    kneeHeightMm: { mean: 449.05, sd: 25.99 },
    together: 0.974,
    femurTibiaDeg: { mean: 1.3, sd: 1.8 },
  },
};
