// Bundles the table and the line of the sketch into ../assets and writes a digest of all sources at the
// top of each, so that a test can tell whether they were built from the sources as they stand.
import {createHash} from 'node:crypto';
import {existsSync, readFileSync, readdirSync, writeFileSync} from 'node:fs';
import {build} from 'esbuild';

const inSrc = readdirSync('src', {recursive: true}).filter(name => /\.(js|css)$/.test(name)).map(name => `src/${name}`);
const sources = ['build.mjs', 'package-lock.json', ...inSrc].sort();
const digest = createHash('sha256');
for (const source of sources) digest.update(source).update('\n').update(readFileSync(source));

const {metafile} = await build({
  entryPoints: {table: 'src/main.js', line: 'src/line.js'},
  bundle: true,
  format: 'esm',
  target: 'es2022',
  minify: true,
  legalComments: 'eof',
  loader: {'.css': 'text'},
  banner: {js: `/* sources ${digest.digest('hex')} */`},
  outdir: '../assets',
  metafile: true,
});

// The licences of what went into it lie beside it.
const packages = new Set(Object.keys(metafile.outputs['../assets/table.js'].inputs)
  .map(path => /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1]).filter(Boolean));
const licences = [...packages].sort().map(name => {
  const {version, license} = JSON.parse(readFileSync(`node_modules/${name}/package.json`, 'utf8'));
  const file = ['LICENSE', 'LICENSE.md', 'LICENSE.txt', 'license'].map(one => `node_modules/${name}/${one}`).find(existsSync);
  return `${name} ${version}, ${license}\n\n${file ? readFileSync(file, 'utf8').trim() : ''}\n`;
});
writeFileSync('../assets/LICENCES.txt', licences.join(`\n${'-'.repeat(80)}\n\n`));
