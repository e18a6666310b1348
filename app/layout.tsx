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

export const viewport: Viewport = { width: 'device-width', initialScale: 1, viewportFit: 'cover' };

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
