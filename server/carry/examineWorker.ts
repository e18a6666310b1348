import { parentPort, workerData } from 'node:worker_threads';
import { z } from 'zod';
import { examineFile } from './examineFile';

parentPort?.postMessage(examineFile(z.string().parse(workerData)));
