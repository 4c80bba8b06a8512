// @vitest-environment happy-dom
import { flushPromises } from '@vue/test-utils';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import DataTable from '../../../src/ui/parts/DataTable.vue';
import { mountPart } from '../mount-part.ts';

const COLUMNS = [
  { key: 'ticket', label: 'Ticket', sorted: 'ascending' as const },
  { key: 'grams', label: 'Weight', number: true },
  { key: 'act', label: 'Void', hideLabel: true },
];
const rowsOf = (count: number) =>
  Array.from({ length: count }, (_, i) => ({ ticket: `26-${i}`, grams: i === 1 ? null : i * 10 }));

function table(count: number, slots = {}) {
  const wrapper = mountPart(DataTable, {
    props: {
      columns: COLUMNS,
      rows: rowsOf(count),
      rowKey: (row: object) => (row as { ticket: string }).ticket,
      caption: 'What was weighed',
    },
    slots,
  });
  return {
    wrapper,
    cells: () => wrapper.findAll('tbody tr').map((row) => row.findAll('td').map((cell) => cell.text())),
    drawn: () => wrapper.findAll('tbody tr:not([aria-hidden])').length,
  };
}

describe('a table', () => {
  it('renders the fields of its rows, a dash for missing values, and slots', () => {
    const { cells, wrapper } = table(2, {
      'cell-act': ({ row }: { row: { ticket: string } }) => `of ${row.ticket}`,
    });
    expect(cells()).toEqual([
      ['26-0', '0', 'of 26-0'],
      ['26-1', '–', 'of 26-1'],
    ]);
    expect(wrapper.get('caption').text()).toBe('What was weighed');
  });

  it('shows its order, and requests another when the heading is pressed', async () => {
    const { wrapper } = table(2);
    const [ticket, weight] = wrapper.findAll('th');
    expect(ticket?.attributes('aria-sort')).toBe('ascending');
    expect(weight?.find('button').exists()).toBe(false);
    await ticket?.get('button').trigger('click');
    expect(wrapper.emitted('order')).toEqual([['ticket']]);
  });

  it('is stacked while its content is too wide, and a table again once other rows need less', async () => {
    const { wrapper } = table(2);
    const [frame, inner] = [wrapper.get('.scroll'), wrapper.get('table')];
    const widths = { frame: 400, table: 600 };
    Object.defineProperty(frame.element, 'clientWidth', { get: () => widths.frame });
    Object.defineProperty(inner.element, 'scrollWidth', { get: () => widths.table });
    await wrapper.setProps({ rows: rowsOf(3) });
    await flushPromises();
    expect(frame.classes()).toContain('stacked');
    widths.table = 300;
    await wrapper.setProps({ rows: rowsOf(1) });
    await flushPromises();
    expect(frame.classes()).not.toContain('stacked');
  });

  it('shows a column under another before its rows become blocks', async () => {
    const { wrapper, cells } = table(2);
    const columns = COLUMNS.map((column) =>
      column.key === 'grams' ? { ...column, under: 'ticket' } : column,
    );
    const [frame, inner] = [wrapper.get('.scroll'), wrapper.get('table')];
    const widths = { frame: 400, table: 600 };
    Object.defineProperty(frame.element, 'clientWidth', { get: () => widths.frame });
    Object.defineProperty(inner.element, 'scrollWidth', {
      get: () => (wrapper.findAll('th').length === 3 ? 600 : widths.table),
    });
    widths.table = 380;
    await wrapper.setProps({ columns });
    await flushPromises();
    expect(frame.classes()).not.toContain('stacked');
    expect(wrapper.findAll('th').map((one) => one.text())).toEqual(['Ticket ▲Weight', 'Void']);
    expect(cells()[0]?.[0]).toMatch(/26-0\s*Weight: 0/);
    widths.table = 500;
    await wrapper.setProps({ rows: rowsOf(3) });
    await flushPromises();
    expect(frame.classes()).toContain('stacked');
    expect(wrapper.findAll('th')).toHaveLength(3);
  });

  it('renders every row of a short table', () => {
    const { drawn, wrapper } = table(500);
    expect(drawn()).toBe(500);
    expect(wrapper.get('table').attributes('aria-rowcount')).toBeUndefined();
  });
});

describe('a table of very many rows', () => {
  // happy-dom has no layout: each row is as tall as the window.
  beforeAll(() => void vi.spyOn(HTMLElement.prototype, 'offsetHeight', 'get').mockReturnValue(64));

  async function long(slots = {}) {
    const found = table(600, slots);
    await flushPromises();
    return found;
  }

  it('renders few rows, and states their number', async () => {
    const { drawn, wrapper } = await long();
    expect(drawn()).toBeLessThan(200);
    expect(wrapper.get('table').attributes('aria-rowcount')).toBe('601');
  });

  it.each(['ctrlKey', 'metaKey'])('renders all rows for the browser’s search (%s)', async (held) => {
    const { drawn } = await long();
    window.dispatchEvent(new KeyboardEvent('keydown', { key: 'f', [held]: true }));
    await flushPromises();
    expect(drawn()).toBe(600);
  });

  it('leads the first press to the search of the page, and renders all rows on the second', async () => {
    const { drawn } = await long();
    const main = document.createElement('main');
    main.innerHTML = '<input type="search" value="elk" />';
    document.body.append(main);
    const press = async (): Promise<boolean> => {
      const event = new KeyboardEvent('keydown', { key: 'f', ctrlKey: true, cancelable: true });
      window.dispatchEvent(event);
      await flushPromises();
      return event.defaultPrevented;
    };
    try {
      expect(await press()).toBe(true);
      expect(document.activeElement).toBe(main.firstElementChild);
      expect(drawn()).toBeLessThan(200);
      expect(await press()).toBe(false);
      expect(drawn()).toBe(600);
    } finally {
      main.remove();
    }
  });

  it('is complete in print, and shortened again on screen', async () => {
    const { drawn } = await long();
    window.dispatchEvent(new Event('beforeprint'));
    await flushPromises();
    expect(drawn()).toBe(600);
    window.dispatchEvent(new Event('afterprint'));
    await flushPromises();
    expect(drawn()).toBeLessThan(200);
  });

  it('removes its listeners when unmounted', async () => {
    const cell = vi.fn();
    const { wrapper } = await long({ 'cell-act': cell });
    wrapper.unmount();
    cell.mockClear();
    window.dispatchEvent(new Event('beforeprint'));
    await flushPromises();
    expect(cell).not.toHaveBeenCalled();
  });
});
