// Node starts no .ts worker: this registers the loader inside the thread first.
import { register } from 'tsx/esm/api';

register();
await import('../../db/backUpWorker.ts');
