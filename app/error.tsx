'use client';

import { Button, ButtonLink } from './_parts/Button';
import { Page } from './_parts/Page';
import { PageHead } from './_parts/PageHead';

/** A page that cannot be drawn. What was entered lies in the outbox, which a fault of drawing does not touch. */
export default function PageFault({ error, reset }: { readonly error: Error; readonly reset: () => void }) {
  return (
    <>
      <PageHead title="This page could not be shown" />
      <Page width="text">
        <p>
          Something went wrong on this device while the page was drawn. What you entered before is where it was: on the
          server, or still on this device.
        </p>
        <p className="small">In the browser’s own words: {error.message}</p>
        <div className="tools">
          <Button tone="main" onClick={reset}>
            Try again
          </Button>
          <ButtonLink href="/">To the first page</ButtonLink>
        </div>
      </Page>
    </>
  );
}
