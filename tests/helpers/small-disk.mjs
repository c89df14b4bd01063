/**
 * Loaded before the server's program, for tests: at SIGUSR2 its databases may not grow by a page, which SQLite
 * reports as a full disk; at SIGHUP they may again. Nothing else of the program is touched.
 */
import Database from 'better-sqlite3';

const open = new Set();
const { prepare } = Database.prototype;
Database.prototype.prepare = function (...args) {
  open.add(this);
  return prepare.apply(this, args);
};
const shops = () => [...open].filter((db) => db.open && db.name.endsWith('fibula.db'));
let fillers = 0;

process.on('SIGUSR2', () => {
  for (const db of shops()) {
    db.pragma('max_page_count = 1');
    const fill = db.prepare('INSERT INTO meta (key, value) VALUES (?, hex(zeroblob(1800)))');
    // Pages that are free inside the file would still take something.
    for (;;) {
      try {
        fill.run(`filler ${fillers++}`);
      } catch {
        break;
      }
    }
  }
});
process.on('SIGHUP', () => {
  for (const db of shops()) db.pragma('max_page_count = 1000000');
});
