// Entry: Streamlit calls this when the table comes onto the page and whenever its data change.

import {Outbox} from './outbox.js';
import {Table} from './table.js';

const tables = new WeakMap();
const outbox = new Outbox();

export default function drawingTable({parentElement, data, setStateValue}) {
  let table = tables.get(parentElement);
  if (!table) {
    table = new Table(parentElement, outbox);
    tables.set(parentElement, table);
  }
  table.apply(data, edits => setStateValue('edits', edits));
  return () => {
    tables.delete(parentElement);
    table.dispose();
  };
}
