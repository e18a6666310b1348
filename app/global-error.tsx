'use client';

import './tokens.css';
import './base.css';
import { Button } from './_parts/Button';

/** Where not even the frame of a page can be drawn; it stands in place of the layout, so it brings its own. */
export default function AppFault({ error, reset }: { readonly error: Error; readonly reset: () => void }) {
  return (
    <html lang="en-GB">
      <body>
        <main className="stack gap-16 text boxed">
          <h1>Evenstack could not be shown</h1>
          <p>
            Something went wrong on this device. What you entered before is where it was: on the server, or still on
            this device.
          </p>
          <p className="small">In the browser’s own words: {error.message}</p>
          <div className="tools">
            <Button tone="main" onClick={reset}>
              Try again
            </Button>
          </div>
        </main>
      </body>
    </html>
  );
}
