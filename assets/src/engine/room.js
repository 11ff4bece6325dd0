/**
 * How the engine's memory is tidied: let it grow to five times what is in use,
 * so that tidying seldom interrupts an answer, but tidy hard beyond 128 MiB.
 */
export const ROOM = { GOGC: '400', GOMEMLIMIT: '128MiB' };
