// Node runs no .ts file: this registers the loader inside the process first.
import { register } from 'tsx/esm/api';

register();
await import('../../server/media/intakeWorker.ts');
