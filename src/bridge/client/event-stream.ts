/** One message of a server-sent stream. */
export interface StreamEvent {
  event: string;
  data: string;
}

/**
 * Reads a server-sent stream to its end and passes on each complete message; lines that start with a colon are
 * heartbeats. Follows "9.2.6 Interpreting an event stream" of the HTML standard for the fields `event` and `data`.
 * Example: `event: changed
 * data: {}
 *
 * ` is one message `{ event: 'changed', data: '{}' }`.
 */
export async function readEvents(
  stream: ReadableStream<Uint8Array>,
  onEvent: (event: StreamEvent) => void,
): Promise<void> {
  const decoder = new TextDecoder();
  let rest = '';
  for (const reader = stream.getReader(); ;) {
    const { done, value } = await reader.read();
    if (done) return;
    const blocks = (rest + decoder.decode(value, { stream: true })).split('\n\n');
    rest = blocks.pop() ?? '';
    for (const block of blocks) {
      const message = parse(block);
      if (message) onEvent(message);
    }
  }
}

function parse(block: string): StreamEvent | null {
  const lines = block.split('\n');
  const fields = (name: string) =>
    lines
      .filter((line) => line.startsWith(`${name}:`))
      .map((line) => line.slice(name.length + 1).trimStart());
  const data = fields('data');
  return data.length > 0 ? { event: fields('event').at(-1) ?? 'message', data: data.join('\n') } : null;
}
