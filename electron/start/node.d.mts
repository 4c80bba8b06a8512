export function nodeSentence(versions: Readonly<Record<string, string | undefined>>): string;
