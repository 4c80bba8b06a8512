import { disableAutoUnmount, enableAutoUnmount } from '@vue/test-utils';
import { afterEach } from 'vitest';

// For each test file: files share a worker, and hooks hold only for the file that sets them.
disableAutoUnmount();
enableAutoUnmount(afterEach);
