// Bundles the table into ../assets/table.js and writes a digest of its sources at the top of it,
// so that a test can tell whether the bundle was built from the sources as they stand.
import {createHash} from 'node:crypto';
import {readFileSync, readdirSync} from 'node:fs';
import {build} from 'esbuild';

const inSrc = readdirSync('src', {recursive: true}).filter(name => /\.(js|css)$/.test(name)).map(name => `src/${name}`);
const sources = ['build.mjs', 'package-lock.json', ...inSrc].sort();
const digest = createHash('sha256');
for (const source of sources) digest.update(source).update('\n').update(readFileSync(source));

await build({
  entryPoints: ['src/main.js'],
  bundle: true,
  format: 'esm',
  target: 'es2022',
  minify: true,
  legalComments: 'eof',
  loader: {'.css': 'text'},
  banner: {js: `/* sources ${digest.digest('hex')} */`},
  outfile: '../assets/table.js',
});
