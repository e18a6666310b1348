import type { NextConfig } from 'next';

const config: NextConfig = {
  poweredByHeader: false,
  productionBrowserSourceMaps: false,
  reactStrictMode: true,
  // No page asks for resized pictures; without this the resizer would answer anyone.
  images: { unoptimized: true },
  // `npm run typecheck` checks the whole house in one go; a second check inside the build would only cost time at start.
  typescript: { ignoreBuildErrors: true },
  experimental: { optimizePackageImports: ['zod'] },
};

export default config;
