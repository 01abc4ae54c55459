/**
 * Generates the Prisma client without the `prisma` command, which is 400 MB and looks for an engine on the network.
 * The generator's ESM build is broken (it imports folders), so the CommonJS build is used.
 */
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const { getGenerators, loadSchemaContext } = require('@prisma/internals');
const { PrismaClientTsGenerator } = require('@prisma/client-generator-ts');

/** Reads every `.prisma` file of the folder and writes the client into the folder that `generator client` names. */
export async function generatePrismaClient(schemaFolder) {
  const schemaContext = await loadSchemaContext({ schemaPath: { cliProvidedPath: schemaFolder }, cwd: schemaFolder, printLoadMessage: false });
  const generators = await getGenerators({
    schemaContext,
    registry: { 'prisma-client': { type: 'in-process', generator: new PrismaClientTsGenerator() } },
    version: require('@prisma/client/package.json').version,
    skipDownload: true,
    cliCommand: 'generate',
  });
  for (const generator of generators) {
    await generator.generate();
    generator.stop();
  }
}
