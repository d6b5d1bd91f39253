// SPDX-License-Identifier: Apache-2.0
// What another reader of Styled Layer Descriptors finds in them: sld.js TOOLS FILE..., a line of
// JSON for each file.
const fs = require('fs');

async function main([tools, ...files]) {
  const {SldStyleParser} =
      await import(`${tools}/node_modules/geostyler-sld-parser/dist/SldStyleParser.js`);
  for (const file of files) {
    const read = await new SldStyleParser({sldVersion: '1.0.0'}).readStyle(fs.readFileSync(file, 'utf8'));
    console.log(JSON.stringify({
      errors: (read.errors || []).map(String),
      style: read.output,
      unsupported: read.unsupportedProperties || null,
    }));
  }
}

main(process.argv.slice(2)).catch((error) => {
  console.error(error);
  process.exitCode = 1;
});
