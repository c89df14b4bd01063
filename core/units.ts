/**
 * Millimetres, degrees, radians: the unit stands in the type as well as in the name.
 * The only casts to a unit are in this file.
 */

declare const unit: unique symbol;

/** A length in millimetres. */
export type Mm = number & { readonly [unit]: 'mm' };
/** An angle in degrees. */
export type Deg = number & { readonly [unit]: 'deg' };
/** An angle in radians. */
export type Rad = number & { readonly [unit]: 'rad' };

export const mm = (value: number): Mm => value as Mm;
export const deg = (value: number): Deg => value as Deg;
export const rad = (value: number): Rad => value as Rad;

/** 180° is π. */
export const toDeg = (angle: Rad): Deg => deg((angle * 180) / Math.PI);
export const toRad = (angle: Deg): Rad => rad((angle * Math.PI) / 180);

/**
 * The angle whose sine is `ratio`, in degrees; beyond ±1 the quarter turn, since a correction that no lean
 * can give is still a direction. `degAsin(0.5)` is 30.
 */
export const degAsin = (ratio: number): Deg => toDeg(rad(Math.asin(Math.min(1, Math.max(-1, ratio)))));
/** `sinDeg(30)` is 0.5. */
export const sinDeg = (angle: Deg): number => Math.sin(toRad(angle));
/** `tanDeg(45)` is 1. */
export const tanDeg = (angle: Deg): number => Math.tan(toRad(angle));
/** `degAtan(1)` is 45. */
export const degAtan = (ratio: number): Deg => toDeg(rad(Math.atan(ratio)));

/** Two lengths closer than this are the same length: far under any reading, far over rounding. */
export const SAME_MM = mm(1e-9);
/** Two angles closer than this are the same angle. */
export const SAME_DEG = deg(1e-9);
