export function languageFaults(name: string, text: string): Promise<string[]>;
