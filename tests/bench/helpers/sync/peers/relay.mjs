/** The least that a server can do: whoever holds a socket of the same address hears every frame of the others. */
import { pass, serveRooms } from './rooms.mjs';

serveRooms(pass);
