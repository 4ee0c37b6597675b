// Loaded into a measured process with --import: leaves its highest resident memory in the file that PEAK_FILE names.
import { writeFileSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';

if (isMainThread) process.on('exit', () => writeFileSync(process.env.PEAK_FILE, String(process.resourceUsage().maxRSS)));
