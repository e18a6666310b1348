// Node 20 starts no .ts file: this starts the compiled one of this run (tests/config/compiledRooms.mjs).
await import(`${process.env.COMPILED_ROOMS}/server/media/intakeWorker.js`);
