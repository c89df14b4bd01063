/** What every station page needs before anything else runs. Must be its first import. */
import './jitless.ts';
import './tokens.css';
import './base.css';
import { language } from './language.ts';

document.documentElement.lang = language;
