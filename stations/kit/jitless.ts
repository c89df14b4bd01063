/**
 * The content policy forbids code made from text, which the validator would otherwise use for speed. It asks when
 * its schemas are made, so this runs before core is loaded.
 */
import { z } from 'zod';

z.config({ jitless: true });
