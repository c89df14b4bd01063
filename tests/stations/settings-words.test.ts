/** The page of settings shows every one of them, once, under a title of its own. */
import { expect, it } from 'vitest';
import { ENTERED_NAMES, SETTING_NAMES } from '../../core/index.ts';
import { settingGroups } from '../../stations/kit/words/settings.ts';

it('has every setting in one group, each with its own title', () => {
  const entries = settingGroups.flatMap((group) => group.entries);
  expect(entries.map(({ name }) => name).sort()).toEqual([...SETTING_NAMES, ...ENTERED_NAMES].sort());
  expect(new Set(entries.map(({ title }) => title)).size).toBe(entries.length);
  expect(
    entries
      .filter(({ standard }) => standard === null)
      .map(({ name }) => name)
      .sort(),
  ).toEqual([...ENTERED_NAMES].sort());
});
