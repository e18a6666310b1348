import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import '@fontsource-variable/atkinson-hyperlegible-next';
import '@fontsource-variable/literata';
import './tokens.css';
import './base.css';
import { DataProvider } from './_data/DataProvider';
import { DemoBar } from './_parts/DemoBar';
import { OtherVersion } from './_parts/OtherVersion';

export const metadata: Metadata = {
  title: 'Evenstack',
  description: 'Several people score the same litter, independently and blind.',
};

export const viewport: Viewport = {
  width: 'device-width',
  initialScale: 1,
  viewportFit: 'cover',
  // The paper of tokens.css, so that the browser's own bar is of one piece with the page.
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#faf8f3' },
    { media: '(prefers-color-scheme: dark)', color: '#171614' },
  ],
};

export default function RootLayout({ children }: { readonly children: ReactNode }) {
  return (
    <html lang="en-GB">
      <body>
        <DataProvider>
          <DemoBar />
          {children}
          <OtherVersion />
        </DataProvider>
      </body>
    </html>
  );
}
