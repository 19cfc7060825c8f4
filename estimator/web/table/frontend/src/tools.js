// The tools, in the order they stand in, each with its key and a drawing of our own.

import {ChoosingTool} from './tools/choosing.js';
import {CutTool, MeasureTool, OutlineTool, RectangleTool, ScaleTool} from './tools/drafting.js';
import {FurnitureTool, JoinTool, OpeningTool} from './tools/fitting.js';

export const TOOLS = [
  {name: 'choose', label: 'Choose', key: 'v', path: 'M5 3l10 7-5 1-2 5z'},
  {name: 'rectangle', label: 'Rectangle', key: 'r', path: 'M3 5h14v10H3z', gap: true},
  {name: 'outline', label: 'Outline', key: 'o', path: 'M3 16V8l5-5h9v7h-5v6z'},
  {name: 'cut', label: 'Cut', key: 'x', path: 'M3 5h14v10H3zM12 2L8 18'},
  {name: 'join', label: 'Join', key: 'j', path: 'M3 5h14v10H3zM6 10h8M11 7l3 3-3 3'},
  {name: 'door', label: 'Door', key: 'd', path: 'M2 16h4M14 16h4M6 16V6a10 10 0 0 1 8 10', gap: true},
  {name: 'window', label: 'Window', key: 'w', path: 'M2 10h3M15 10h3M5 7h10v6H5zM5 10h10'},
  {name: 'passage', label: 'Passage', key: 'g', path: 'M2 7h4v6H2M18 7h-4v6h4M8 10h4'},
  {name: 'furniture', label: 'Furniture', key: 'f', path: 'M4 4v12M16 4v12M4 9h12v4H4z'},
  {name: 'scale', label: 'Set scale', key: 'k', path: 'M2 13V7h16v6zM6 7v3M10 7v4M14 7v3', gap: true},
  {name: 'measure', label: 'Measure', key: 'm', path: 'M3 10h14M3 6v8M17 6v8M6 8l-3 2 3 2M14 8l3 2-3 2'},
];

export function makeTools(table) {
  const made = [
    new ChoosingTool(table), new RectangleTool(table), new OutlineTool(table), new CutTool(table),
    new JoinTool(table), new FurnitureTool(table), new ScaleTool(table), new MeasureTool(table),
    ...['door', 'window', 'passage'].map(kind => new OpeningTool(table, kind)),
  ];
  return Object.fromEntries(made.map(tool => [tool.name, tool]));
}
