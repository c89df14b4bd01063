import { expect, it } from 'vitest';
import { dayTime } from '../../stations/kit/day-time.ts';

it('times are read however a person writes them', () => {
  expect(['9', '09', '9:00', '9.00', '0900'].map(dayTime)).toEqual(Array(5).fill('09:00'));
  expect(['24:00', '0:05'].map(dayTime)).toEqual(['24:00', '00:05']);
  expect(['', 'noon', '25', '9:60', '24:01', '12345'].map(dayTime)).toEqual(Array(6).fill(null));
});
