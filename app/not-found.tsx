import { ButtonLink } from './_parts/Button';
import { Page } from './_parts/Page';
import { PageHead } from './_parts/PageHead';

export default function NotFound() {
  return (
    <>
      <PageHead title="There is no such page" />
      <Page width="text">
        <p>
          The address may be mistyped, or the page has moved. A link for a seat ends in a long row of letters after “#”:
          open the whole of it.
        </p>
        <div>
          <ButtonLink tone="main" href="/">
            To the first page
          </ButtonLink>
        </div>
      </Page>
    </>
  );
}
