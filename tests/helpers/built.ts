/** Before any test: the server that tests start is built from its sources as they are now, however vitest was called. */
export { readyServer as setup } from '../../server/setup/ready.mjs';
