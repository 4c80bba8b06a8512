import { disableAutoUnmount, enableAutoUnmount } from '@vue/test-utils';
import { afterEach, vi } from 'vitest';

// For each test file: files share a worker, and mocks and hooks hold only for the file that sets them. Without the mock, a file that
// needs no desk would leave the real client behind for the next one.
vi.mock('../../src/bridge/client/index.ts', async () => (await import('./played-desk.ts')).client);
disableAutoUnmount();
enableAutoUnmount(afterEach);
// happy-dom loads no fonts.
if (!('fonts' in document)) Object.defineProperty(document, 'fonts', { value: { ready: Promise.resolve() } });
