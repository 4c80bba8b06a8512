export function hindrance(
  platform: NodeJS.Platform,
  env: Readonly<Record<string, string | undefined>>,
  uid: number,
): string;
export function installedRuntime(root: string, env: Readonly<Record<string, string | undefined>>): string;
