// `npm start`. Old syntax on purpose, and nothing imported but the version check: see nodeVersion.mjs.
import { nodeComplaint } from './nodeVersion.mjs';

const complaint = nodeComplaint(process.versions.node);
if (complaint) {
  console.error(complaint);
  process.exitCode = 1;
} else {
  import('./launch.mjs')
    .then(function (launcher) {
      return launcher.launch();
    })
    .catch(function (error) {
      console.error(
        'Evenstack could not start: ' +
          String((error && error.message) || error)
            .trim()
            .replace(/\s*\n\s*/g, ' '),
      );
      process.exit(1);
    });
}
