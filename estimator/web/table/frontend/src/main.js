// Entry of the drawing table.

import {Outbox} from './outbox.js';
import {entry} from './place.js';
import {Table} from './table.js';

const outbox = new Outbox();

export default entry(place => new Table(place, outbox));
