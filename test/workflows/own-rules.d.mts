export function ruleFaults(name: string, text: string, root: string): string[];
