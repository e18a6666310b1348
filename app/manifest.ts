import type { MetadataRoute } from 'next';

/** Lets a phone put the app on its first screen; colours as in tokens.css. */
export default function manifest(): MetadataRoute.Manifest {
  return {
    id: '/',
    name: 'Evenstack',
    short_name: 'Evenstack',
    description: 'Several people score the same litter, independently and blind.',
    lang: 'en-GB',
    start_url: '/',
    display: 'standalone',
    background_color: '#faf8f3',
    theme_color: '#0f5c57',
    icons: [
      { src: '/icon.svg', type: 'image/svg+xml', sizes: 'any' },
      { src: '/icon1.png', type: 'image/png', sizes: '192x192' },
      { src: '/icon2.png', type: 'image/png', sizes: '512x512' },
      { src: '/icon2.png', type: 'image/png', sizes: '512x512', purpose: 'maskable' },
    ],
  };
}
