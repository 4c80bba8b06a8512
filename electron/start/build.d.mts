export function build(root: string, node: string): Promise<{ ok: boolean; output: string }>;
