/** How the boot lies at this bench: kept on this device, since a vice holds every boot the same way. */

const KEY = 'fibula.bench.lies';
export type Lying = 'upright' | 'over';

class Lies {
  #how = $state<Lying>(localStorage.getItem(KEY) === 'over' ? 'over' : 'upright');

  get how(): Lying {
    return this.#how;
  }
  set how(how: Lying) {
    this.#how = how;
    localStorage.setItem(KEY, how);
  }
  get over(): boolean {
    return this.#how === 'over';
  }
}
export const lies = new Lies();
