/** SQL that takes a database back to before sessions and people were found by words: format 7. */
export const WITHOUT_WORDS = `
  DROP TRIGGER session_words_go; DROP TRIGGER people_words_go; DROP TABLE session_words; DROP TABLE people_words;
  DROP INDEX documents_without_shown; ALTER TABLE documents DROP COLUMN shown; PRAGMA user_version = 7;`;
